//! What a wait is at least, with what comes after it.

use super::{Bound, Least, Task, Tasks, Walk, What, bit};
use crate::routine::bound::Left;
use crate::routine::compile::compile;
use crate::routine::form::{Clock, Compiled};
use crate::routine::tests::{problem, vehicle};

/// A task by what it takes and what it waits for.
fn task(hands_on_s: u32, after: Tasks, clock: Option<usize>) -> Task {
    let takes = [Least { hands_on_s, disturbs: false }; 2];
    let (what, steps, zone) = (What::Aim(0), Vec::new(), None);
    Task { what, steps, takes, zone, after, long_after: after, clock, undone_by: 0 }
}

/// Something is drained 100 s from now, then wiped, then shut. Once it is wiped, shutting it waits for
/// the draining of something else no more, though it once came after it.
#[test]
fn a_wait_counts_only_what_still_waits_for_it() {
    let vehicle = vehicle(&["engine"]);
    let question = problem(&vehicle, "ready_to_drive", &[]);
    let clock = Clock { var: 0, of: None, setting: 1, limit_s: 1_000, left_s: 100 };
    let compiled = Compiled { clocks: vec![clock], ..compile(&question) };
    let mut bound = Bound::new(&compiled, &vehicle.walks);
    let [drain, wipe, shut] = [0, 1, 2];
    bound.tasks = vec![
        task(0, 0, Some(0)),
        task(30, bit(drain), None),
        Task { long_after: bit(drain) | bit(wipe), ..task(50, bit(wipe), None) },
    ];
    bound.walk = Walk::new(&bound.tasks, &vehicle.walks, 0);
    let mut wait_s = |tasks: Tasks| bound.wait_s(Left { tasks, by_move: 0 }, 0, &[100], 0, false);
    assert_eq!(wait_s(bit(drain) | bit(wipe) | bit(shut)), 100 + 30 + 50);
    assert_eq!(wait_s(bit(drain) | bit(wipe)), 100 + 30);
    assert_eq!(wait_s(bit(drain) | bit(shut)), 100, "it was wiped: shutting does not wait");
    assert_eq!(wait_s(bit(wipe) | bit(shut)), 0, "nothing is waited for");
}
