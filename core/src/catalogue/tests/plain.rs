//! The words of cards and alerts: whole, plain and short, for somebody who stands outdoors and
//! worries.

use super::{below, changed, kinds};
use crate::card;
use crate::catalogue::Catalogue;

/// Longest line. Unit: characters.
const LINE_CHARS_MAX: usize = 140;
/// Most lines of one part.
const LINES_MAX: usize = 4;
/// Longest card. Unit: characters.
const CARD_CHARS_MAX: usize = 1_200;
/// Least reading ease: what a child of twelve reads easily begins at 70.
const EASE_MIN: f64 = 70.0;

/// Reading ease: 206.835 − 1.015 × words per sentence − 84.6 × syllables per word (Flesch, Journal
/// of Applied Psychology 32(3), 1948). A line or a colon ends a sentence as well.
fn ease(said: &str) -> f64 {
    let words: Vec<_> = said.split_whitespace().collect();
    let sentences = said.split(['.', '?', ':', '\n']).filter(|one| !one.trim().is_empty()).count();
    let syllables: usize = words.iter().map(|word| syllables(word)).sum();
    let count = |n: usize| f64::from(u32::try_from(n).unwrap());
    let per_sentence = count(words.len()) / count(sentences);
    206.835 - 1.015 * per_sentence - 84.6 * count(syllables) / count(words.len())
}

/// Groups of vowels, but for a silent e at the end; at least one.
fn syllables(word: &str) -> usize {
    let word = word.to_lowercase();
    let word = word.trim_matches(|letter: char| !letter.is_alphabetic());
    let is_vowel = |letter: char| "aeiouy".contains(letter);
    let mut before = false;
    let mut groups = 0_usize;
    for vowel in word.chars().map(is_vowel) {
        groups += usize::from(vowel && !before);
        before = vowel;
    }
    let silent = word.ends_with('e') && !word.ends_with("le");
    groups.saturating_sub(usize::from(silent)).max(1)
}

#[test]
fn reading_ease_is_that_of_the_formula() {
    assert!((ease("The cat sat on the mat.") - 116.145).abs() < 1e-9);
    assert!((ease("Water runs into a table.") - (206.835 - 5.075 - 84.6 * 8.0 / 5.0)).abs() < 1e-9);
    assert!(ease("Discontinue operation of the ventilation installation immediately.") < 0.0);
}

/// The words of each card, alert and fault, by the key that they stand below.
fn pages() -> Vec<(String, Vec<(&'static str, &'static str)>)> {
    let cards = kinds().map(|kind| format!("kind.{}.card.", kind.id));
    let alerts = Catalogue::built_in().unwrap().alerts.iter();
    let alerts = alerts.map(|alert| format!("kind.{}.{}.", alert.kind, alert.words()));
    let faults = Catalogue::built_in().unwrap().faults.iter();
    let faults = faults.map(|fault| format!("{}.", fault.words()));
    let all = [below("kind."), below("fault.")].concat();
    let page = |start: String| {
        let own = all.iter().filter(|(key, _)| key.starts_with(&start)).copied();
        (
            start.clone(),
            own.filter(|(key, _)| !["title", "words"].contains(&super::last(key)))
                .collect::<Vec<_>>(),
        )
    };
    cards.chain(alerts).chain(faults).map(page).filter(|(_, words)| !words.is_empty()).collect()
}

#[test]
fn cards_alerts_and_faults_are_plain_and_short() {
    let pages = pages();
    assert!(pages.len() > 100, "only {}", pages.len());
    for (start, words) in pages {
        for (key, said) in &words {
            assert!(said.lines().count() <= LINES_MAX, "{key}");
            for line in said.lines() {
                assert!(line.chars().count() <= LINE_CHARS_MAX, "{key}: {line}");
                assert!(line.ends_with(['.', '?']) && !line.contains(".."), "{key}: {line}");
                assert!(!line.starts_with(char::is_lowercase), "{key}: {line}");
            }
        }
        let whole: Vec<_> = words.iter().map(|(_, said)| said.replace("{it}", "pump")).collect();
        let (whole, is_card) = (whole.join("\n"), start.contains(".card."));
        assert!(!is_card || whole.chars().count() <= CARD_CHARS_MAX, "{start}");
        let ease = ease(&whole);
        assert!(ease >= EASE_MIN, "{start}: {ease:.1}");
    }
}

#[test]
fn every_kind_has_its_card() {
    for kind in kinds() {
        let said = card::SECTIONS.map(|part| super::words(kind, &format!("card.{part}")));
        assert!(said.iter().all(|said| !said.is_empty()), "{}", kind.id);
    }
    assert!(kinds().count() > 90);
}

#[test]
fn a_kind_without_the_whole_of_a_card_fails_the_check() {
    let said = changed("care = \"Clean its strainer", "cure = \"Clean its strainer").unwrap_err();
    assert!(said.to_string().contains("no words for `kind.pump.card.care`"), "{said}");
    let said = changed("[kind.urea_tank.card]", "[kind.urea_tank.cart]").unwrap_err();
    assert!(said.to_string().contains("no words for `kind.urea_tank.card."), "{said}");
}

/// What an alert leads to is there, it has its words, and its last meaning holds anywhere.
#[test]
fn an_alert_that_leads_nowhere_fails_the_check() {
    let refused = |old: &str, new: &str| changed(old, new).unwrap_err().to_string();
    let said = refused("routine = \"serviced/waste\"", "routine = \"serviced/wast\"");
    assert!(said.contains("alerts/waste_tank.toml") && said.contains("serviced/wast"), "{said}");
    let said = refused("routine = \"battery_read\"", "routine = \"battery_red\"");
    assert!(said.contains("battery_red"), "{said}");
    let said = refused("steps = [\"tap.shut\"]", "steps = [\"tap.shot\"]");
    assert!(said.contains("no step `tap.shot`"), "{said}");
    let said = refused("cards = [\"fresh_tank\", \"boiler\"]", "cards = [\"fresh_tonk\"]");
    assert!(said.contains("no kind `fresh_tonk`"), "{said}");
    let said = refused(
        "report = { own = \"lamp\", in = [\"red\"] }",
        "report = { own = \"lamp\", in = [\"out\", \"red\"] }",
    );
    assert!(said.contains("a report says one setting"), "{said}");
    let said = refused(
        "id = \"refill\"",
        "id = \"refill\"\nso = { only_if = [{ own = \"drain\", in = [\"shut\"] }] }",
    );
    assert!(said.contains("the last meaning alone hangs on nothing"), "{said}");
    let said = refused("id = \"refill\"", "id = \"fill_up\"");
    assert!(said.contains("no words for `kind.fresh_tank.alert.empty.do.fill_up`"), "{said}");
}

/// What somebody reads in fear defers to those who may do the work.
#[test]
fn every_alert_of_gas_or_mains_says_who_may_do_the_work() {
    let said = |kind: &str, alert: &str, part: &str| {
        super::words(
            super::kinds().find(|one| one.id == kind).unwrap(),
            &format!("alert.{alert}.{part}"),
        )
    };
    for (kind, alert) in
        [("boiler", "locked_out"), ("fridge_three_way", "no_source"), ("gas_cylinder", "low")]
    {
        let (help, caution) = (said(kind, alert, "help"), said(kind, alert, "caution"));
        assert!(
            help.contains("gas fitter") && help.contains("mell of gas: everyone out"),
            "{kind}"
        );
        assert!(!caution.is_empty());
    }
    assert!(said("mains_lead", "no_mains", "help").contains("qualified electrician"));
}

#[test]
fn an_indication_without_an_alert_fails_the_check() {
    let refused = |old: &str, new: &str| changed(old, new).unwrap_err().to_string();
    let said = refused("report = { own = \"oil\", in = [\"red\"] }", "");
    assert!(said.contains("`engine.oil` shows `red` without an alert"), "{said}");
    let said = refused("shows = [\"blown\"]", "shows = [\"burnt\"]");
    assert!(said.contains("has no setting `burnt` to show"), "{said}");
}
