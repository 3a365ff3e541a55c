//! Words for what the engine found: every sentence comes from the catalogue's text.

use crate::catalogue::Text;
use crate::clock::Stamp;
use crate::interlock::Refusal;
use crate::state::{Known, Run};
use crate::units::{Units, Written};
use crate::vehicle::{Action, Clause, Deed, Fitting, Literal, Settings, Variable, Vehicle};

mod fault;
mod quantity;
#[cfg(test)]
mod tests;

const MS_PER_MIN: i64 = 60_000;
const MIN_PER_H: i64 = 60;
const MIN_PER_DAY: i64 = 1_440;

/// One vehicle in one language.
#[derive(Debug, Clone, Copy)]
pub(super) struct Words<'a> {
    pub(super) vehicle: &'a Vehicle,
    pub(super) text: &'a Text,
    pub(super) units: Units,
}

impl Words<'_> {
    /// A sentence of the engine's own, by its key below `say.`.
    pub(super) fn say(&self, key: &str, slots: &[(&str, &str)]) -> String {
        self.text.say(&format!("say.{key}"), slots)
    }

    /// A list line or sentence: its first letter a capital.
    pub(super) fn sentence(said: &str) -> String {
        Text::sentence(said)
    }

    /// Whether the vehicle has a fitting of a kind.
    pub(super) fn has(&self, kind: &str) -> bool {
        self.vehicle.of_kind(kind).next().is_some()
    }

    /// What the technician calls a fitting; what is always there has the name of its kind.
    pub(super) fn title<'a>(&'a self, fitting: &'a Fitting) -> &'a str {
        let own = self.text.get(&format!("kind.{}.title", fitting.kind)).unwrap_or_default();
        if fitting.title.is_empty() { own } else { &fitting.title }
    }

    fn of_kind(&self, fitting: &Fitting, rest: &str) -> String {
        let key = format!("kind.{}.{rest}", fitting.kind);
        self.with_values(fitting, &self.text.say(&key, &[("it", self.title(fitting))]))
    }

    /// Words of several lines, each filled in by itself; none where there are no words.
    pub(super) fn lines(&self, number: usize, rest: &str) -> Vec<String> {
        let Some(fitting) = self.vehicle.fittings.get(number) else { return Vec::new() };
        let said = self.text.get(&format!("kind.{}.{rest}", fitting.kind)).unwrap_or_default();
        let filled =
            |line: &str| self.with_values(fitting, &line.replace("{it}", self.title(fitting)));
        said.lines().map(filled).collect()
    }

    /// The fitting's pack values in their slots; that they are defaults, where they are. A number
    /// in a slot, as in `{0_c}`, is a quantity of the sentence itself.
    pub(super) fn with_values(&self, fitting: &Fitting, said: &str) -> String {
        match self.filled(fitting, said) {
            (filled, false) => filled,
            (filled, true) => [filled, self.say("default_value", &[])].join(" "),
        }
    }

    /// The same without saying so, and whether one of them is a default.
    pub(super) fn filled(&self, fitting: &Fitting, said: &str) -> (String, bool) {
        let (mut filled, mut defaulted, mut rest) = (String::new(), false, said);
        while let Some((before, (id, after))) =
            rest.split_once('{').and_then(|(before, slot)| Some((before, slot.split_once('}')?)))
        {
            filled.push_str(before);
            filled.push_str(&self.slot(fitting, id));
            defaulted |= fitting.values.get(id).is_some_and(|value| value.defaulted);
            rest = after;
        }
        filled.push_str(rest);
        (filled, defaulted)
    }

    /// What stands in a slot: a quantity with its unit, or the value as the pack has it.
    fn slot(&self, fitting: &Fitting, id: &str) -> String {
        let value = fitting.values.get(id);
        let own = || id.rsplit_once('_')?.0.parse::<f64>().ok();
        let number = if value.is_some() { fitting.number(id) } else { own() };
        let written = number.and_then(|number| self.units.value(id, number));
        match (written, value) {
            (Some(written), _) => self.written(&written),
            (None, Some(value)) => value.datum.to_string(),
            (None, None) => format!("{{{id}}}"),
        }
    }

    /// A quantity with its unit.
    pub(super) fn written(&self, written: &Written) -> String {
        Self::in_text(self.text, written)
    }

    /// The same, where there is no vehicle.
    pub(super) fn in_text(text: &Text, written: &Written) -> String {
        let Written { unit, n, m } = written;
        let one = if n == "1" { "_one" } else { "" };
        text.say(&format!("say.unit.{unit}{one}"), &[("n", n), ("m", m)])
    }

    pub(super) fn fitting(&self, number: usize, rest: &str) -> String {
        let fitting = self.vehicle.fittings.get(number);
        fitting.map_or_else(String::new, |fitting| self.of_kind(fitting, rest))
    }

    /// What a variable is called.
    pub(super) fn variable(&self, variable: &Variable) -> String {
        if let Some(age) = variable.age_of {
            let base = Literal { variable: age.variable, settings: Settings::one(age.setting) };
            return self.literal(&base);
        }
        self.fitting(variable.fitting, &format!("variable.{}", variable.name))
    }

    /// The label of a variable by its number.
    pub(super) fn label(&self, number: usize) -> String {
        self.vehicle.variables.get(number).map_or_else(String::new, |one| self.variable(one))
    }

    /// One setting of a variable.
    pub(super) fn setting(&self, variable: &Variable, name: &str) -> String {
        if variable.age_of.is_some() {
            return self.say(&format!("age.{name}"), &[]);
        }
        self.fitting(variable.fitting, &format!("setting.{}.{name}", variable.name))
    }

    /// "shut", "shut or ajar", or "not known" for all of them.
    pub(super) fn settings(&self, number: usize, settings: Settings) -> String {
        let Some(variable) = self.vehicle.variables.get(number) else {
            return String::new();
        };
        if settings == variable.all {
            return self.say("not_known", &[]);
        }
        let names = variable.names_of(settings);
        let said: Vec<_> = names.iter().map(|name| self.setting(variable, name)).collect();
        self.any_of(&said)
    }

    /// "off, on automatic or set to 12 V".
    pub(super) fn any_of(&self, said: &[String]) -> String {
        match said.split_last() {
            Some((last, others)) if !others.is_empty() => {
                format!("{}{}{last}", others.join(", "), self.say("or", &[]))
            }
            _ => said.concat(),
        }
    }

    /// "roof light over the bed: shut".
    pub(super) fn literal(&self, literal: &Literal) -> String {
        let settings = self.settings(literal.variable, literal.settings);
        format!("{}: {settings}", self.label(literal.variable))
    }

    pub(super) fn step(&self, action: &Action) -> String {
        let rest = match action.deed {
            Deed::Move => format!("move.{}", action.name),
            Deed::Look => format!("look.{}", action.name),
            Deed::Wait => format!("wait.{}", action.name),
        };
        Self::sentence(&self.fitting(action.fitting, &rest))
    }

    /// Words that a fitting may have, if it has them.
    fn optional(&self, number: usize, rest: &str) -> Option<String> {
        let fitting = self.vehicle.fittings.get(number)?;
        let has = self.text.has(&format!("kind.{}.{rest}", fitting.kind));
        has.then(|| self.of_kind(fitting, rest))
    }

    /// The cautions of a move, or by what sign a look tells its settings, line by line.
    pub(super) fn cautions(&self, action: &Action) -> Vec<String> {
        let table = match action.deed {
            Deed::Move => "caution",
            Deed::Look => "sign",
            Deed::Wait => return Vec::new(),
        };
        let said = self.optional(action.fitting, &format!("{table}.{}", action.name));
        said.iter().flat_map(|said| said.lines()).map(str::to_owned).collect()
    }

    pub(super) fn clause(&self, clause: &Clause) -> String {
        self.fitting(clause.fitting, &format!("clause.{}", id_of(clause)))
    }

    /// What to do, and to leave alone, where a danger clause is broken or stands in the way.
    pub(super) fn danger(&self, clause: &Clause) -> Option<String> {
        self.optional(clause.fitting, &format!("danger.{}", id_of(clause)))
    }

    /// What to do instead where something cannot be moved, and the road may ask for it.
    pub(super) fn instead(&self, number: usize, road: bool) -> String {
        let variable = self.vehicle.variables.get(number);
        let own =
            variable.and_then(|one| self.optional(one.fitting, &format!("stuck.{}", one.name)));
        own.unwrap_or_else(|| self.say(if road { "stuck.road" } else { "stuck.help" }, &[]))
    }

    pub(super) fn refusal(&self, refusal: Refusal) -> String {
        match refusal {
            Refusal::Before(literal) => {
                let title = Self::sentence(&self.label(literal.variable));
                let wanted = self.settings(literal.variable, literal.settings);
                self.say("refuse.before", &[("title", &title), ("wanted", &wanted)])
            }
            Refusal::Clause(number) => {
                let clause = self.vehicle.clauses.get(number);
                clause.map_or_else(String::new, |clause| self.clause(clause))
            }
        }
    }

    /// What may have become of something since it was last known; `None` where nothing has.
    pub(super) fn settled(&self, known: &Known) -> Option<String> {
        let one = self.vehicle.settlings.get(known.settled?)?;
        Some(self.fitting(one.fitting, &format!("settling.{}", one.name)))
    }

    /// How long ago something was last known, and what may have become of it since.
    pub(super) fn known(&self, known: &Known, now: &Stamp) -> String {
        let age = self.age(known.at.age_ms(now));
        match self.settled(known) {
            Some(what) => self.say("settled", &[("age", &age), ("what", &what)]),
            None => age,
        }
    }

    /// That a routine is closed by what was said.
    pub(super) fn closed(&self, run: &Run) -> String {
        self.say("warn.closed_other", &[("what", &self.aim(&run.target))])
    }

    /// What the log calls `target`, `target/variant` or `back/entry`.
    pub(super) fn aim(&self, key: &str) -> String {
        let Some((target, variant)) = key.split_once('/') else {
            return self.text.say(&format!("target.{key}.title"), &[]);
        };
        let title = self.text.say(&format!("target.{target}.title"), &[("what", variant)]);
        let own = format!("target.{target}.variant.{variant}.title");
        match self.text.get(&own) {
            Some(variant) => self.say("variant", &[("target", &title), ("variant", variant)]),
            None => self.with_parts(target, title, variant),
        }
    }

    /// A target's title with the parts of it that are meant, where parts are named.
    fn with_parts(&self, target: &str, title: String, named: &str) -> String {
        let part = |part: &str| self.text.get(&format!("target.{target}.part.{part}"));
        let parts: Vec<&str> = named.split('+').filter_map(part).collect();
        if parts.is_empty() {
            return title;
        }
        self.say("variant", &[("target", &title), ("variant", &parts.join(", "))])
    }

    pub(super) fn zone(&self, number: usize) -> String {
        self.vehicle.zones.get(number).map_or_else(String::new, |zone| zone.title.clone())
    }

    /// What names a zone to the engine.
    pub(super) fn zone_id(&self, number: usize) -> String {
        self.vehicle.zones.get(number).map_or_else(String::new, |zone| zone.id.clone())
    }

    /// "12 min ago".
    pub(super) fn age(&self, age_ms: Option<i64>) -> String {
        let Some(minutes) = age_ms.map(|age_ms| age_ms / MS_PER_MIN) else {
            return self.say("age_not_known", &[]);
        };
        let say = |key: &str, n: i64| self.say(key, &[("n", &n.to_string())]);
        match minutes {
            0 => self.say("just_now", &[]),
            1..120 => say("minutes_ago", minutes),
            120..2_880 => say("hours_ago", minutes / MIN_PER_H),
            _ => say("days_ago", minutes / MIN_PER_DAY),
        }
    }

    /// "14 min", rounded up, so that nothing is promised too early.
    pub(super) fn time(&self, time_ms: i64) -> String {
        let minutes = time_ms.saturating_add(MS_PER_MIN - 1) / MS_PER_MIN;
        match minutes {
            ..1 => self.say("less_than_a_minute", &[]),
            1..120 => self.say("minutes", &[("n", &minutes.to_string())]),
            _ => {
                let (hours, rest) = (minutes / MIN_PER_H, minutes % MIN_PER_H);
                let slots = [("n", hours.to_string()), ("m", rest.to_string())];
                let slots = slots.each_ref().map(|(slot, said)| (*slot, said.as_str()));
                match rest {
                    0 => self.say("hours", &slots),
                    _ => self.say("hours_and_minutes", &slots),
                }
            }
        }
    }

    /// A sentence that has another form for one.
    pub(super) fn count(&self, key: &str, n: usize) -> String {
        match n {
            1 => self.say(&format!("{key}_one"), &[]),
            _ => self.say(key, &[("n", &n.to_string())]),
        }
    }
}

/// The id of a clause within its kind.
fn id_of(clause: &Clause) -> &str {
    clause.id.split_once('.').map_or("", |(_, id)| id)
}

/// Cautions as one, each sentence said once; nothing where there are none.
pub(super) fn together(cautions: impl IntoIterator<Item = String>) -> Option<String> {
    let sentences = cautions.into_iter().flat_map(|caution| {
        let parts = caution.split(". ").map(|one| one.trim_end_matches('.').to_owned());
        parts.collect::<Vec<_>>()
    });
    let sentences = once(sentences);
    (!sentences.is_empty()).then(|| sentences.join(". ") + ".")
}

/// Lines in their order, each said once.
pub(super) fn once(lines: impl IntoIterator<Item = String>) -> Vec<String> {
    let mut said = Vec::new();
    for line in lines {
        if !line.is_empty() && !said.contains(&line) {
            said.push(line);
        }
    }
    said
}
