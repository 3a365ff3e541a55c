//! What the fridge draws on, from what is believed of everything that feeds it.

use super::ahead::ahead;
use super::loaded::Loaded;
use super::page::{FridgePage, FridgeSource};
use super::words::Words;
use crate::clock::Stamp;
use crate::error::Result;
use crate::fridge::{
    Age, Because, Feed, Hazard, Inputs, Known, Selector, Source, advise, setting_for,
};
use crate::vehicle::{Fitting, Literal, Settings};

const MS_PER_MIN: f64 = 60_000.0;
/// The chain of the catalogue by which mains reaches the vehicle.
const MAINS: &str = "mains_lead.mains";

impl Loaded {
    /// `leave`: when a trip begins, in ms since 1970-01-01 UTC, where that was named.
    pub(super) fn fridge_page(
        &self,
        language: &str,
        leave: Option<i64>,
        now: &Stamp,
    ) -> Result<Option<FridgePage>> {
        let Some((number, fridge)) = self.vehicle.of_kind("fridge_three_way").next() else {
            return Ok(None);
        };
        let words = self.words(language)?;
        let Some(variable) = self.vehicle.variable_of(fridge, "selector") else {
            return Ok(None);
        };
        let all = self.vehicle.variables.get(variable).map_or(Settings::NONE, |known| known.all);
        let mut page = FridgePage {
            title: Words::sentence(&words.fitting(number, "variable.selector")),
            source: FridgeSource::Unknown,
            headline: words.say("fridge.headline_unknown", &[]),
            why: Vec::new(),
            next_source: None,
            next_change_utc_ms: None,
            next_text: None,
            by_hand: None,
            cautions: Vec::new(),
            manual: true,
            choices: self.choices(&words, variable, Settings::NONE),
            chosen: None,
            ahead: Vec::new(),
        };
        let believed = self.state.belief(variable).map_or(all, |belief| belief.settings);
        let known = self.vehicle.variables.get(variable);
        page.chosen = known.and_then(|one| Some(one.name_of(believed.single()?)?.to_owned()));
        let automatic = self.vehicle.setting(variable, "auto").is_ok();
        let inputs = |selector| self.fridge_inputs(fridge, automatic, selector, now);
        let Some(selector) = believed.single().and_then(selector_at) else {
            page.why.push(words.say("why.unknown", &[]));
            let set = setting_for(&inputs(Selector::Off))?;
            page.by_hand = set.map(|set| words.say(&format!("fridge.set_{}", setting(set)), &[]));
            return Ok(Some(page));
        };
        page.manual = selector != Selector::Auto;
        let inputs = inputs(selector);
        fill(&words, &mut page, &inputs, now)?;
        page.ahead = ahead(&words, fridge, &inputs, leave, now)?;
        if self.takes_flames_for_granted(&inputs)? {
            page.why.push(words.say("fridge.assumed.flame", &[]));
        }
        Ok(Some(page))
    }

    /// Whether the advice hangs on flames being allowed here, and nobody has said so.
    fn takes_flames_for_granted(&self, inputs: &Inputs) -> Result<bool> {
        let asked = advise(&Inputs { flame_forbidden: Known::Unknown, ..inputs.clone() })?;
        let matters = asked.because.contains(&Because::Unknown(Feed::FlameForbidden));
        let said = self.literals("pitch", "flame", "forbidden").into_iter().any(|one| {
            self.state.belief(one.variable).is_some_and(|belief| belief.known.is_some())
        });
        Ok(matters && !said)
    }

    fn fridge_inputs(
        &self,
        fridge: &Fitting,
        automatic: bool,
        selector: Selector,
        now: &Stamp,
    ) -> Inputs {
        let off = self.age_of("engine", "running", now);
        let delay_ms = fridge.number("gas_delay_min").unwrap_or(0.0) * MS_PER_MIN;
        Inputs {
            automatic,
            selector,
            mains: self.mains(),
            engine_running: self.is("engine", "running", "on"),
            charge_signal: match fridge.word("charge_signal") {
                Some("with_engine") => Known::Yes,
                _ => Known::Unknown,
            },
            gas: self.any("gas_cylinder", "valve", "open"),
            engine_off: off,
            gas_delay_ms: crate::reserve::whole(
                "gas_delay_min",
                delay_ms,
                1,
                0..=i64::from(u32::MAX),
            )
            .unwrap_or(0),
            flame_forbidden: self.is("pitch", "flame", "forbidden"),
            flame_on_road: self.any("gas_cylinder", "road_choice", "open"),
        }
    }

    /// Whether mains reaches the vehicle: every link of the chain must hold.
    pub(super) fn mains(&self) -> Known {
        let Some(links) = self.mains_links() else { return Known::No };
        !any(links.iter().map(|link| !self.holds(link)))
    }

    /// Everything by which mains reaches the vehicle; `None` where it has no lead.
    pub(super) fn mains_links(&self) -> Option<&[Literal]> {
        let chain = self.vehicle.chains.iter().find(|chain| chain.id == MAINS)?;
        Some(&chain.literals)
    }

    /// Whether the first fitting of a kind has a setting.
    pub(super) fn is(&self, kind: &str, variable: &str, setting: &str) -> Known {
        self.literals(kind, variable, setting).first().map_or(Known::No, |one| self.holds(one))
    }

    /// Whether a fitting has a setting.
    pub(super) fn own(&self, fitting: &Fitting, variable: &str, setting: &str) -> Known {
        self.literal_of(fitting, variable, setting).map_or(Known::No, |one| self.holds(&one))
    }

    /// Whether any fitting of a kind has a setting; `No` where none is fitted.
    pub(super) fn any(&self, kind: &str, variable: &str, setting: &str) -> Known {
        any(self.literals(kind, variable, setting).iter().map(|one| self.holds(one)))
    }

    pub(super) fn holds(&self, literal: &Literal) -> Known {
        let belief = self.state.belief(literal.variable);
        let settings = belief.map_or(Settings::NONE, |belief| belief.settings);
        match (settings.is_within(literal.settings), settings.meets(literal.settings)) {
            (true, _) => Known::Yes,
            (false, true) => Known::Unknown,
            (false, false) => Known::No,
        }
    }

    fn literals(&self, kind: &str, name: &str, setting: &str) -> Vec<Literal> {
        let fittings = self.vehicle.of_kind(kind);
        fittings.filter_map(|(_, fitting)| self.literal_of(fitting, name, setting)).collect()
    }

    fn literal_of(&self, fitting: &Fitting, name: &str, setting: &str) -> Option<Literal> {
        let variable = self.vehicle.variable_of(fitting, name)?;
        let place = self.vehicle.setting(variable, setting).ok()?;
        Some(Literal { variable, settings: Settings::one(place) })
    }

    /// How long the first fitting of a kind has been as it is believed to be.
    pub(super) fn age_of(&self, kind: &str, name: &str, now: &Stamp) -> Age {
        let fitting = self.vehicle.of_kind(kind).next();
        let variable = fitting.and_then(|(_, fitting)| self.vehicle.variable_of(fitting, name));
        variable.map_or(Age::AtLeast(0), |variable| self.age(variable, now))
    }

    /// How long a variable has been as it is believed to be.
    pub(super) fn age(&self, variable: usize, now: &Stamp) -> Age {
        let known = self.state.belief(variable).and_then(|belief| belief.known.as_ref());
        let found = known.and_then(|known| Some((known.since.age_ms(now)?, known.began)));
        match found.filter(|_| !self.state.clock_changed(now)) {
            Some((age_ms, true)) => Age::Exactly(age_ms),
            Some((age_ms, false)) => Age::AtLeast(age_ms),
            None => Age::AtLeast(known.map_or(0, |known| self.least_age_ms(known.seq, now))),
        }
    }

    /// The least that an entry lies back, by the clock that nobody can set.
    fn least_age_ms(&self, seq: i64, now: &Stamp) -> i64 {
        let entry = self.entries.iter().rev().find(|entry| entry.seq == seq);
        entry.map_or(0, |entry| entry.said.at.least_age_ms(now))
    }
}

/// Whether any of some matters is so.
fn any(known: impl Iterator<Item = Known>) -> Known {
    // `Yes` settles it; else what is not known leaves it open.
    known
        .min_by_key(|known| match known {
            Known::Yes => 0,
            Known::Unknown => 1,
            Known::No => 2,
        })
        .unwrap_or(Known::No)
}

/// Puts advice into words.
fn fill(words: &Words, page: &mut FridgePage, inputs: &Inputs, now: &Stamp) -> Result<()> {
    let advice = advise(inputs)?;
    page.source = source(advice.source);
    page.headline = words.say(&format!("fridge.headline_{}", named(advice.source)), &[]);
    let by_hand = advice.because.iter().any(|one| matches!(one, Because::SetByHand(_)));
    page.why = advice.because.iter().map(|one| because(words, *one, by_hand)).collect();
    if let Some(next) = advice.next {
        let time = words.time(next.in_ms);
        let said = words.say(&format!("fridge.source.{}", named(next.source)), &[]);
        let key = match (next.source, advice.source) {
            (Source::Unknown, _) => "fridge.next_unknown",
            (_, Source::Unknown) => "fridge.next_latest",
            _ => "fridge.next",
        };
        page.next_source = Some(source(next.source));
        page.next_change_utc_ms = Some(now.utc_ms.saturating_add(next.in_ms));
        page.next_text = Some(words.say(key, &[("source", &said), ("time", &time)]));
    }
    page.by_hand =
        advice.by_hand.map(|set| words.say(&format!("fridge.set_{}", setting(set)), &[]));
    page.cautions = advice
        .cautions
        .iter()
        .map(|caution| {
            let said = words.say(&format!("fridge.hazard.{}", hazard(caution.hazard)), &[]);
            if caution.sure {
                said
            } else {
                words.say("fridge.hazard.unsure", &[("hazard", &said)])
            }
        })
        .collect();
    if advice.next.is_some_and(|next| next.source == Source::Gas) {
        page.cautions.insert(0, words.say("fridge.hazard.lights_later", &[]));
    }
    Ok(())
}

fn selector_at(place: u8) -> Option<Selector> {
    [Selector::Off, Selector::Auto, Selector::Mains, Selector::Dc, Selector::Gas]
        .get(usize::from(place))
        .copied()
}

fn source(source: Source) -> FridgeSource {
    match source {
        Source::Mains => FridgeSource::Mains,
        Source::Dc => FridgeSource::Dc,
        Source::Gas => FridgeSource::Gas,
        Source::None => FridgeSource::None,
        Source::Unknown => FridgeSource::Unknown,
    }
}

pub(super) fn named(source: Source) -> &'static str {
    match source {
        Source::Mains => "mains",
        Source::Dc => "dc",
        Source::Gas => "gas",
        Source::None => "none",
        Source::Unknown => "unknown",
    }
}

pub(super) fn setting(selector: Selector) -> &'static str {
    match selector {
        Selector::Off => "off",
        Selector::Auto => "auto",
        Selector::Mains => "mains",
        Selector::Dc => "dc",
        Selector::Gas => "gas",
    }
}

/// A reason in words; set `by_hand`, nothing comes first.
fn because(words: &Words, because: Because, by_hand: bool) -> String {
    let key = match because {
        Because::MainsReaches if by_hand => "mains_there",
        Because::SwitchedOff => "switched_off",
        Because::SetByHand(_) => "set_by_hand",
        Because::MainsReaches => "mains_reaches",
        Because::NoMains if words.has("mains_lead") => "no_mains",
        Because::NoMains => "no_lead",
        Because::EngineRuns => "engine_runs",
        Because::EngineStopped => "engine_stopped",
        Because::ChargeStands => "charge_stands",
        Because::ChargeDropped => "charge_dropped",
        Because::FlameForbidden => "flame_forbidden",
        Because::NoFlameOnRoad => "no_flame_on_road",
        Because::GasReaches => "gas_reaches",
        Because::NoGas if words.has("gas_cylinder") => "no_gas",
        Because::NoGas => "no_cylinder",
        Because::GasDelay { left_ms } => {
            return words.say("fridge.because.gas_delay", &[("time", &words.time(left_ms))]);
        }
        Because::DelayOver => "delay_over",
        Because::Unknown(feed) => return words.say(&format!("fridge.ask.{}", asked(feed)), &[]),
    };
    words.say(&format!("fridge.because.{key}"), &[])
}

pub(super) fn asked(feed: Feed) -> &'static str {
    match feed {
        Feed::Mains => "mains",
        Feed::Engine => "engine",
        Feed::ChargeSignal => "charge_signal",
        Feed::FlameForbidden => "flame_forbidden",
        Feed::FlameOnRoad => "flame_on_road",
        Feed::Gas => "gas",
        Feed::EngineStop => "engine_stop",
    }
}

pub(super) fn hazard(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::FlameForbidden => "flame_forbidden",
        Hazard::LightsByItself { .. } => "lights_by_itself",
        Hazard::FlameOnRoad => "flame_on_road",
        Hazard::FlatBattery => "flat_battery",
        Hazard::HoldsOnly => "holds_only",
    }
}
