//! What the supply carries, asked of the demo vehicle and of changed ones.

use super::{at, tell};
use crate::engine::{Engine, Mark, Pick, Reckoning, ReckoningLine};

/// The pack with these values of one fitting and no others of it.
fn with_values(pack: &str, id: &str, values: &str) -> String {
    let begins = format!("[[fitting]]\nid = \"{id}\"\n");
    let (before, own) = pack.split_once(&begins).unwrap();
    let (own, after) = own.split_once("[[fitting]]").unwrap();
    let own = own.lines().filter(|line| !line.starts_with("values = "));
    let own = own.collect::<Vec<_>>().join("\n");
    format!("{before}{begins}values = {{ {values} }}\n{own}\n[[fitting]]{after}")
}

/// The demo vehicle with the watts of its fridge in the pack, and a boiler with these values.
fn with_boiler(values: &str) -> Engine {
    let pack = with_values(super::PACK, "fridge", "mains_w = 130");
    let pack = with_values(&pack, "boiler", values);
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&pack, "a", &at(0)).unwrap();
    engine
}

fn told(engine: &mut Engine, figures: &[(&str, f64)]) {
    for (id, value) in figures {
        engine.tell_figure(id, Some(*value), &at(0)).unwrap();
    }
}

fn asked(engine: &Engine, picks: &[(&str, &str)]) -> Reckoning {
    let pick =
        |(choice, value): &(&str, &str)| Pick { choice: (*choice).into(), value: (*value).into() };
    let picks: Vec<Pick> = picks.iter().map(pick).collect();
    engine.reckon("supply", &picks, &at(1)).unwrap()
}

fn lines<'a>(page: &'a Reckoning, part: &str) -> Vec<&'a ReckoningLine> {
    let of = page.parts.iter().filter(|one| one.title == part);
    of.flat_map(|one| &one.lines).collect()
}

fn line<'a>(page: &'a Reckoning, id: &str) -> &'a ReckoningLine {
    page.parts.iter().flat_map(|part| &part.lines).find(|line| line.id == id).unwrap()
}

const TURNS: &str = "What to run when";

#[test]
fn without_the_plate_of_the_post_each_rating_has_its_answer_and_none_is_made_up() {
    let engine = with_boiler("mains_w = 1300");
    let page = asked(&engine, &[]);
    assert_eq!(page.mark, None);
    assert!(page.verdict_text.starts_with("Read the plate"), "{}", page.verdict_text);
    let posts = lines(&page, "All of it at once");
    let marks: Vec<_> = posts.iter().filter(|one| one.id == "post").map(|one| one.mark).collect();
    // 1,430 W: 7.2 A at the most, 6.8 A are 1.13 times 6.
    assert_eq!(marks, [Some(Mark::Watch), Some(Mark::Fine), Some(Mark::Fine)]);
}

#[test]
fn the_rating_that_was_told_of_the_place_counts_until_another_is_picked() {
    let mut engine = with_boiler("mains_w = 1300");
    engine.arrive_at("pitch_6a", &at(0)).unwrap();
    assert_eq!(asked(&engine, &[]).mark, Some(Mark::Watch));
    assert_eq!(asked(&engine, &[("post", "a16")]).mark, Some(Mark::Fine));
}

#[test]
fn what_draws_nobody_knows_how_much_is_not_said_to_hold() {
    let mut engine = Engine::in_memory("en").unwrap();
    let pack = with_values(super::PACK, "fridge", "gas_delay_min = 20");
    engine.add_pack(&pack, "a", &at(0)).unwrap();
    let page = asked(&engine, &[("post", "a16")]);
    assert_eq!(page.mark, Some(Mark::Watch));
    let perhaps = "Perhaps. Not counted: Fridge. With that a breaker may trip.";
    assert_eq!(page.verdict_text, perhaps);
    tell(&mut engine, &[("fridge.selector", "off")], &at(0));
    assert_eq!(asked(&engine, &[("post", "a16")]).mark, Some(Mark::Fine), "known to be off");
}

/// Whatever the post and the selector: nothing is fine while something that may be on is not counted.
#[test]
fn no_yes_stands_beside_what_is_on_and_not_counted() {
    let pack = with_values(super::PACK, "fridge", "gas_delay_min = 20");
    for (selector, draws) in [("mains", true), ("auto", true), ("gas", false), ("off", false)] {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_pack(&pack, "a", &at(0)).unwrap();
        tell(&mut engine, &[("fridge.selector", selector)], &at(0));
        for post in ["a6", "a10", "a16"] {
            let page = asked(&engine, &[("post", post)]);
            let said = &page.verdict_text;
            assert_eq!(page.mark == Some(Mark::Fine), !draws, "{selector} {post}: {said}");
            assert_eq!(said.starts_with("Yes"), !draws, "{selector} {post}: {said}");
            assert_eq!(said.contains("Not counted: Fridge."), draws, "{selector} {post}: {said}");
        }
    }
}

#[test]
fn what_does_not_hold_at_once_is_done_in_turn() {
    let mut engine = with_boiler("mains_w = 1300");
    told(&mut engine, &[("kettle_w", 1_800.0), ("kettle_min", 10.0), ("boiler_mains_min", 60.0)]);
    let page = asked(&engine, &[("post", "a10"), ("by", "120")]);
    assert_eq!(page.mark, Some(Mark::Watch));
    assert!(page.verdict_text.contains("In turn all of it is done within 1 h 10 min."), "{page:?}");
    let turns: Vec<_> =
        lines(&page, TURNS).iter().map(|one| (one.id.as_str(), one.text.as_str())).collect();
    assert_eq!(turns, [("boiler", "Now, for 1 h."), ("kettle", "In 1 h, for 10 min.")]);
    let bars: Vec<_> = lines(&page, TURNS).iter().map(|one| (one.bar_from, one.bar_to)).collect();
    assert_eq!(bars, [(Some(0.0), Some(0.5)), (Some(0.5), Some(14.0 / 24.0))]);
}

#[test]
fn what_cannot_be_done_in_time_is_named_with_what_leaving_it_out_frees() {
    let mut engine = with_boiler("mains_w = 1300");
    told(&mut engine, &[("kettle_w", 1_800.0), ("kettle_min", 10.0), ("boiler_mains_min", 60.0)]);
    let page = asked(&engine, &[("post", "a10"), ("by", "65")]);
    assert_eq!(page.mark, Some(Mark::Wrong));
    assert!(page.verdict_text.contains("Leave out Kettle"), "{}", page.verdict_text);
    assert!(line(&page, "kettle").text.contains("frees 1800 watts"));
    let six = asked(&engine, &[("post", "a6"), ("want", "kettle")]);
    assert!(line(&six, "kettle").text.contains("too much here"), "{six:?}");
}

#[test]
fn what_takes_longer_than_there_is_is_said_also_where_all_may_run_at_once() {
    let mut engine = with_boiler("mains_w = 1300");
    told(&mut engine, &[("boiler_mains_min", 60.0)]);
    let page = asked(&engine, &[("post", "a16"), ("by", "30")]);
    assert_eq!(page.mark, Some(Mark::Watch));
    assert!(page.verdict_text.ends_with("Not done by then: Boiler."), "{}", page.verdict_text);
    assert!(lines(&page, TURNS).iter().any(|one| one.text.starts_with("It needs longer")));
}

#[test]
fn only_what_is_picked_is_wanted() {
    let mut engine = with_boiler("mains_w = 1300");
    told(&mut engine, &[("kettle_w", 1_800.0), ("toaster_w", 900.0)]);
    let chosen = |page: &Reckoning| {
        let want = page.choices.iter().find(|one| one.id == "want").unwrap();
        let of = want.options.iter().filter(|one| one.chosen);
        of.map(|one| one.id.clone()).collect::<Vec<_>>()
    };
    assert_eq!(chosen(&asked(&engine, &[])), ["boiler", "kettle", "toaster"]);
    let page = asked(&engine, &[("post", "a10"), ("want", "toaster")]);
    assert_eq!((chosen(&page), page.mark), (vec!["toaster".to_owned()], Some(Mark::Fine)));
    let none = asked(&engine, &[("want", "none"), ("post", "a10")]);
    assert!(chosen(&none).is_empty());
}

#[test]
fn nobody_is_asked_how_long_who_did_not_say_how_much() {
    let mut engine = with_boiler("mains_w = 1300");
    let asks = |engine: &Engine| {
        asked(engine, &[]).asks.iter().map(|row| row.id.clone()).collect::<Vec<_>>()
    };
    assert!(!asks(&engine).contains(&"kettle_min".to_owned()));
    told(&mut engine, &[("kettle_w", 1_800.0)]);
    assert!(asks(&engine).contains(&"kettle_min".to_owned()));
    let page = asked(&engine, &[("post", "a6")]);
    assert!(page.missing.iter().any(|one| one.contains("Boiler, Kettle")), "{:?}", page.missing);
    assert!(page.verdict_text.contains("Say how long"), "{}", page.verdict_text);
}

/// 750 W holds on 6 A beside the fridge, 1,850 W does not; low takes longer.
#[test]
fn a_boiler_with_two_powers_says_which_holds_and_how_long_each_takes() {
    let engine = with_boiler("two_powers = true, mains_w = 1850, low_w = 750");
    let water = [("post", "a6"), ("cold", "15"), ("hot", "60"), ("boiler", "10")];
    let page = asked(&engine, &water);
    let (low, high) = (line(&page, "low"), line(&page, "high"));
    assert_eq!((low.mark, high.mark), (Some(Mark::Fine), Some(Mark::Watch)));
    // 41.9 minutes at exactly 750 W, no losses.
    assert!(low.lower.unwrap() < 41.9 && low.upper.unwrap() > 41.9);
    assert!(high.upper.unwrap() < low.lower.unwrap());
    assert_eq!(page.mark, Some(Mark::Watch), "it counts as high until it is said to be low");
    let low = "Set to low power, all that is counted may run at once: Boiler.";
    assert!(page.verdict_text.ends_with(low), "{}", page.verdict_text);
    let picked = asked(&engine, &[("post", "a6"), ("power", "low")]);
    assert_eq!(picked.mark, Some(Mark::Fine));
    assert!(!picked.verdict_text.contains("low power"));
    let mut engine = engine;
    tell(&mut engine, &[("boiler.element", "low")], &at(0));
    assert_eq!(asked(&engine, &[("post", "a6")]).mark, Some(Mark::Fine));
}

/// On 6 A, within two hours: 750 W hold beside the charger, 1,850 W do not. A boiler that heats 30 minutes at
/// 1,850 W takes 74 at 750, so 75 in steps of five; a room is heated as long as was wanted.
#[test]
fn what_has_two_powers_is_set_low_where_else_it_would_be_left_out() {
    let two = "two_powers = true, mains_w = 1850, low_w = 750";
    let pack = with_values(super::PACK, "fridge", "mains_w = 130");
    let pack = with_values(&pack, "boiler", two);
    let heater = format!("id = \"fire\"\nkind = \"heater_electric\"\nvalues = {{ {two} }}\n");
    let own = "title = \"electric heater\"\nzone = \"galley\"\n";
    let pack = format!("{pack}\n[[fitting]]\n{heater}{own}");
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&pack, "a", &at(0)).unwrap();
    told(&mut engine, &[("boiler_mains_min", 30.0), ("heater_mains_min", 40.0)]);
    let minutes = |page: &Reckoning, id: &str, span_min: f64| {
        let of = lines(page, TURNS).into_iter().filter(|line| line.id == id);
        of.map(|line| (line.bar_to.unwrap() - line.bar_from.unwrap()) * span_min).sum::<f64>()
    };
    let page = asked(&engine, &[("post", "a6"), ("by", "120")]);
    assert!((minutes(&page, "boiler", 120.0) - 75.0).abs() < 1e-9, "{page:?}");
    assert!((minutes(&page, "fire", 120.0) - 40.0).abs() < 1e-9, "{page:?}");
    assert!(page.verdict_text.contains("Set to low power: Boiler, Electric heater."));
    let low =
        lines(&page, TURNS).iter().all(|line| line.detail.as_deref() == Some("At its low power."));
    assert!(low && page.mark == Some(Mark::Watch), "{page:?}");
    // 16 A hold one after the other at full power: nothing is set low.
    let strong = asked(&engine, &[("post", "a16"), ("by", "120")]);
    assert!((minutes(&strong, "boiler", 120.0) - 30.0).abs() < 1e-9, "{strong:?}");
    assert!(!strong.verdict_text.contains("Set to low power: "), "{}", strong.verdict_text);
    // Too short for both low: one is left out whatever is set low.
    let short = asked(&engine, &[("post", "a6"), ("by", "60")]);
    assert_eq!(short.mark, Some(Mark::Wrong));
    assert!(short.verdict_text.contains("Leave out Boiler"), "{}", short.verdict_text);
}

/// The heater's own choice of power, and where it stands as its owner said.
#[test]
fn an_electric_heater_with_two_powers_has_its_own_choice_of_them() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    let draws = |engine: &Engine, picks: &[(&str, &str)]| {
        let want = [&[("post", "a10"), ("want", "heater_mains")], picks].concat();
        line(&asked(engine, &want), "draws").upper.unwrap()
    };
    let (high, low) = (draws(&engine, &[]), draws(&engine, &[("heater_power", "low")]));
    // 1,100 W less, on mains of 207 to 253 V.
    assert!((0.9..=1.16).contains(&((high - low) * 230.0 / 1_100.0)), "{high} {low}");
    tell(&mut engine, &[("heater_mains.element", "low")], &at(0));
    assert!((draws(&engine, &[]) - low).abs() < 1e-9);
}

#[test]
fn the_lead_is_that_of_the_pack_until_another_is_picked() {
    let engine = with_boiler("mains_w = 1300");
    let page = asked(&engine, &[("post", "a16")]);
    // 25 m of 2.5 mm² at 16 A: 6.4 V at 20 °C, 7.4 V at 60 °C.
    let most = line(&page, "lost_most");
    assert!(most.lower.unwrap() < 6.384 && most.upper.unwrap() > 7.388, "{most:?}");
    assert_eq!(most.mark, Some(Mark::Watch), "3.2 per cent");
    let two = asked(&engine, &[("post", "a16"), ("lead_length", "50")]);
    assert_eq!(line(&two, "joined").mark, Some(Mark::Wrong));
    assert_eq!(line(&two, "lost_most").mark, Some(Mark::Wrong), "6.4 per cent");
    let thin = asked(&engine, &[("post", "a16"), ("lead_section", "1.5")]);
    assert_eq!(line(&thin, "thin").mark, Some(Mark::Wrong));
    let odd = asked(&engine, &[("lead_section", "2")]);
    assert!(odd.missing.iter().any(|one| one.starts_with("No lead is made")), "{:?}", odd.missing);
}

/// 6 m of 6 mm² at 20 A lose 0.79 V of 12 V at 20 °C.
#[test]
fn a_line_of_12_volts_is_reckoned_where_all_three_numbers_are_picked() {
    let engine = with_boiler("mains_w = 1300");
    let dc = [("dc_length", "6"), ("dc_section", "6"), ("dc_current", "20")];
    let page = asked(&engine, &dc);
    let lost = line(&page, "dc");
    assert!(lost.lower.unwrap() < 0.792 && lost.upper.unwrap() > 0.792);
    assert_eq!(lost.mark, Some(Mark::Wrong));
    assert!(asked(&engine, &dc[..2]).parts.iter().all(|part| part.title != "The 12 volt line"));
}

#[test]
fn a_lead_that_may_be_coiled_is_warned_of_and_a_post_without_earth() {
    let mut engine = with_boiler("mains_w = 1300");
    let warns = |engine: &Engine, word: &str| {
        asked(engine, &[]).cautions.iter().any(|one| one.contains(word))
    };
    assert!(warns(&engine, "coiled up") && !warns(&engine, "no earth"));
    tell(&mut engine, &[("lead.coil", "uncoiled"), ("post.earth", "missing")], &at(0));
    assert!(!warns(&engine, "coiled up") && warns(&engine, "no earth"));
}

/// Nothing is said of the vehicle or of an installation that only a person on site can tell.
#[test]
fn no_word_of_the_page_calls_anything_safe() {
    let mut engine = with_boiler("two_powers = true, mains_w = 1850, low_w = 750");
    told(&mut engine, &[("kettle_w", 1_800.0), ("kettle_min", 10.0), ("boiler_mains_min", 60.0)]);
    for post in ["a6", "a10", "a16"] {
        let page = asked(&engine, &[("post", post), ("by", "120"), ("lead_length", "50")]);
        assert!(!format!("{page:?}").to_lowercase().contains("safe"));
    }
}
