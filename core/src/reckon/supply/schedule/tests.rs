use super::{Job, Piece, Why, plan};

fn job(id: u32, draw_ma: u32, ticks: u32, earliest: u32, latest: u32) -> Job {
    Job { id, draw_ma, ticks, earliest, latest, pauses: false }
}

#[test]
fn what_fits_together_runs_together() {
    let day = plan(10_000, &[job(1, 4_000, 3, 0, 9), job(2, 6_000, 2, 1, 9)]).unwrap();
    let both = [Piece { from: 0, to: 3, id: 1 }, Piece { from: 1, to: 3, id: 2 }];
    assert_eq!((day.pieces.as_slice(), day.pauses, day.ends), (both.as_slice(), 0, 3));
    assert!(day.left.is_empty() && day.proven);
}

/// A kettle that is wanted at tick 4 while the boiler needs all but its time: the boiler is paused.
#[test]
fn something_is_paused_only_where_nothing_else_does() {
    let boiler = Job { pauses: true, ..job(1, 8_000, 9, 0, 10) };
    let day = plan(10_000, &[boiler, job(2, 9_000, 1, 4, 5)]).unwrap();
    assert_eq!((day.pauses, day.left.len(), day.ends), (1, 0, 10));
    let later = Job { latest: 12, ..boiler };
    let day = plan(10_000, &[later, job(2, 9_000, 1, 4, 12)]).unwrap();
    assert_eq!(day.pauses, 0, "the kettle can wait");
}

/// Three that go two by two in three ticks only where one is split: no other event marks that tick.
#[test]
fn a_pause_may_fall_between_all_other_events() {
    let jobs = [1, 2, 3].map(|id| Job { pauses: true, ..job(id, 5_000, 2, 0, 3) });
    let day = plan(10_000, &jobs).unwrap();
    assert_eq!((day.pauses, day.left.len(), day.ends), (1, 0, 3));
}

#[test]
fn what_is_left_out_says_why() {
    let jobs = [
        job(1, 12_000, 1, 0, 9),
        job(2, 1_000, 5, 6, 9),
        job(3, 9_000, 3, 0, 4),
        job(4, 9_000, 2, 0, 4),
    ];
    let day = plan(10_000, &jobs).unwrap();
    assert_eq!(day.left, [(1, Why::TooMuch), (2, Why::TooLong), (4, Why::NoRoom)]);
    assert_eq!(day.pieces, [Piece { from: 0, to: 3, id: 3 }]);
}

#[test]
fn what_draws_nothing_runs_where_nothing_is_left() {
    let day = plan(0, &[job(1, 0, 3, 0, 9), job(2, 1, 1, 0, 9)]).unwrap();
    assert_eq!((day.left, day.ends), (vec![(2, Why::TooMuch)], 3));
}

#[test]
fn nothing_wanted_is_done_at_once_and_too_many_are_refused() {
    let day = plan(10_000, &[]).unwrap();
    assert!(day.pieces.is_empty() && day.left.is_empty() && day.proven);
    let many: Vec<Job> = (0..17).map(|id| job(id, 1, 1, 0, 9)).collect();
    assert_eq!(plan(10_000, &many), None);
    assert_eq!(plan(10_000, &[job(1, 1, 1, 0, 100_001)]), None);
}
