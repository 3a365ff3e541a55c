//! The files of faults: what fails their check, what their words may hold, and who does which work.

use super::{below, changed, english};
use crate::catalogue::{Catalogue, Fault, Helper, Tool};

fn faults() -> impl Iterator<Item = &'static Fault> {
    Catalogue::built_in().unwrap().faults.iter()
}

/// The check of a catalogue with one thing changed.
#[track_caller]
fn refused(old: &str, new: &str, why: &str) {
    let said = changed(old, new).unwrap_err().to_string();
    assert!(said.contains(why), "{said}");
}

#[test]
fn a_fault_that_leads_nowhere_fails_the_check() {
    refused("leaves = [\"one_fuse\", \"other\"]", "leaves = [\"one_fuze\"]", "no cause `one_fuze`");
    refused("leaves = [\"one_fuse\", \"other\"]", "leaves = []", "leaves no cause");
    refused(
        "at = [\"control_panel.power\"]",
        "at = [\"control_panel.pover\"]",
        "no `control_panel.pover`",
    );
    refused(
        "needs = [\"control_panel\"]",
        "needs = [\"control_pannel\"]",
        "no kind `control_pannel`",
    );
    refused(
        "after = [\"own\", \"post\"]",
        "after = [\"own\", \"lead\"]",
        "`after` names earlier checks",
    );
    refused(
        "alerts = [\"pump.never_stops\"]",
        "alerts = [\"pump.never\"]",
        "no alert `pump.never`",
    );
    refused("cards = [\"main_switch\", \"post\"]", "cards = [\"mane\"]", "no kind `mane`");
    refused("kinds = [\"mains_lead\"]", "kinds = [\"mains_lid\"]", "no kind `mains_lid`");
    refused(
        "steps = [\"tap.shut\", \"outside",
        "steps = [\"tap.shot\", \"outside",
        "no step `tap.shot`",
    );
    refused(
        "chance = { air = 0.9, no_water = 0.3",
        "chance = { air = 1.9, no_water = 0.3",
        "under cause `air`",
    );
    refused("id = \"one\"\nleaves", "id = \"cannot\"\nleaves", "none called `cannot`");
    refused("id = \"panel_off\"\nweight = 8", "id = \"panel_off\"\nweight = 0", "a weight above 0");
    let rest = "id = \"other\"\nweight = 7\nask = \"workshop\"";
    refused(rest, "id = \"other\"\nweight = 7", "hangs on nothing and `ask`s");
    refused(
        "[fault.pump_never_stops.cause]\nno_water",
        "[fault.pump_never_stops.cause]\nno_beer",
        "no words for `fault.pump_never_stops.cause.no_water`",
    );
    refused(
        "[fault.no_12v.danger]\nvolts",
        "[fault.no_12v.danger]\nmaster",
        "no words for `fault.no_12v.danger.volts`",
    );
    refused("[fault.no_12v]\ntitle", "[fault.no_12w]\ntitle", "no words for `fault.no_12v.");
}

#[test]
fn only_titles_and_values_of_every_such_kind_stand_in_braces() {
    let kinds = &Catalogue::built_in().unwrap().kinds;
    let mut looked = 0;
    for fault in faults() {
        for (key, said) in below(&format!("{}.", fault.words())) {
            for slot in said.split('{').skip(1).map(|rest| rest.split('}').next().unwrap()) {
                let has = |kind: &String| kinds[kind].values.iter().any(|value| value.id == slot);
                assert!(slot == "it" || fault.kinds.iter().all(has), "{key}: {slot}");
                looked += 1;
            }
        }
    }
    assert!(looked > 20, "{looked}");
}

/// Local law keeps gas joints, burners and flues, and fixed mains wiring, for licensed people.
#[test]
fn gas_and_mains_end_with_a_licensed_person_and_no_line_leads_into_their_work() {
    for (kinds, helper, who) in [
        (&["boiler", "heater_gas", "hob", "fridge_three_way"][..], Helper::GasFitter, "gas fitter"),
        (&["mains_lead"], Helper::Electrician, "electrician"),
    ] {
        let own = |fault: &&Fault| fault.kinds.iter().any(|kind| kinds.contains(&kind.as_str()));
        for fault in faults().filter(own) {
            let caution = english().get(&format!("{}.caution", fault.words())).unwrap();
            assert!(caution.contains(who), "{}", fault.symptom);
            let asks = fault.causes.iter().filter(|cause| cause.ask == Some(helper));
            assert!(asks.clone().count() > 0, "{}", fault.symptom);
            for cause in asks {
                let remedy = format!("{}.remedy.{}", fault.words(), cause.id);
                let said = english().get(&remedy).unwrap();
                assert!(said.contains(who), "{remedy}: {said}");
            }
        }
    }
    let never =
        ["open the post", "loosen a gas joint", "take a cover off the mains", "open the burner"];
    for (key, said) in below("fault.") {
        let said = said.to_lowercase();
        for deed in never {
            let told_not_to =
                said.contains(&format!("never {deed}")) || said.contains(&format!("not {deed}"));
            assert!(!said.contains(deed) || told_not_to, "{key}: {said}");
        }
    }
}

/// Whoever is asked, and whatever is taken along, has its words.
#[test]
fn helpers_and_tools_have_their_words() {
    let helpers = Helper::ALL.map(|one| format!("say.fault.helper.{}", one.code()));
    let tools = Tool::ALL.into_iter().filter(|tool| *tool != Tool::Nothing);
    let tools = tools.map(|one| format!("say.fault.tool.{}", one.code()));
    for key in helpers.into_iter().chain(tools) {
        assert!(english().has(&key), "{key}");
    }
}

/// Every fault says where its facts and its likelihoods come from.
#[test]
fn no_likelihood_goes_without_its_origin() {
    assert!(faults().count() >= 18);
    for fault in faults() {
        let known = ["judgement, no source"];
        assert!(known.contains(&fault.likelihood.as_str()), "{}: name the source", fault.symptom);
        assert!(!fault.source.is_empty());
    }
}
