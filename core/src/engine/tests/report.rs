//! What a report undoes.

use super::{at, carry_out, demo};
use crate::engine::VerdictKind;

#[test]
fn a_report_after_the_walk_round_spoils_it_only_if_something_changed() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    carry_out(&mut engine, &at(2));
    let titles = |engine: &crate::engine::Engine| {
        let page = engine.now_page(&at(4)).unwrap();
        page.items.iter().map(|item| item.variable.clone()).collect::<Vec<_>>()
    };
    engine.report("drawers.catch", "latched", &at(3)).unwrap();
    assert_eq!(titles(&engine), [""; 0]);
    engine.report("drawers.catch", "unlatched", &at(3)).unwrap();
    engine.report("drawers.catch", "latched", &at(3)).unwrap();
    assert_eq!(titles(&engine), ["walk_round.walked"]);
    engine.report("pitch.water", "none", &at(4)).unwrap();
    carry_out(&mut engine, &at(4));
    assert_eq!(engine.now_page(&at(4)).unwrap().verdict, VerdictKind::Clear);
}
