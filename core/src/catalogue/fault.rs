//! Something that does not work: what may cause it, and what tells the causes apart. One file for
//! each symptom.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::alert::Condition;
use super::kind::Literal;
use super::value::When;

/// A symptom.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fault {
    /// Its id, the name of its file.
    #[serde(skip)]
    pub symptom: String,
    /// The kinds of fitting that show it.
    pub kinds: Vec<String>,
    /// The order in which symptoms are listed.
    pub rank: u32,
    /// One for the vehicle, however many such fittings there are.
    #[serde(default)]
    pub once: bool,
    /// Where its facts come from, or "common practice, no source".
    pub source: String,
    /// Where the weights of its causes come from, or "judgement, no source".
    pub likelihood: String,
    /// Other kinds whose cards help.
    #[serde(default)]
    pub cards: Vec<String>,
    /// From which alerts its search begins: `kind.alert`; of its own kind those of its fitting.
    #[serde(default)]
    pub alerts: Vec<String>,
    /// What may cause it. The last is anything else: it hangs on nothing, and a workshop is asked.
    #[serde(rename = "cause")]
    pub causes: Vec<Cause>,
    /// What tells the causes apart.
    #[serde(default, rename = "check")]
    pub questions: Vec<Question>,
}

/// What may cause a symptom.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cause {
    /// Its id within the symptom.
    pub id: String,
    /// How often it is the cause, against the others; above 0.
    pub weight: u32,
    /// Only where the fitting is of one of these kinds.
    #[serde(default)]
    pub of: Vec<String>,
    /// Only where something of each of these kinds is fitted.
    #[serde(default)]
    pub needs: Vec<String>,
    /// Only where the pack says so of the fitting.
    #[serde(default)]
    pub when: Vec<When>,
    /// Where the vehicle's state rules it out.
    pub unless: Option<Condition>,
    /// Nothing is wrong then.
    #[serde(default)]
    pub normal: bool,
    /// What mends it: `target` or `target/part`.
    pub routine: Option<String>,
    /// Steps that mend it: `kind.move` or `kind.variable.look`; of the fitting's own kind they are
    /// its own.
    #[serde(default)]
    pub steps: Vec<String>,
    /// Kinds whose cards help.
    #[serde(default)]
    pub cards: Vec<String>,
    /// Who mends it, where the owner does not. It has neither routine nor steps then.
    pub ask: Option<Helper>,
}

/// Who does work that is not the owner's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Helper {
    /// Anybody who repairs such vehicles.
    Workshop,
    /// Gas joints, burners and flues are for a licensed person.
    GasFitter,
    /// So is fixed mains wiring.
    Electrician,
    /// The people of the place, for what is theirs.
    Site,
}

impl Helper {
    /// Each of them.
    pub const ALL: [Self; 4] = [Self::Workshop, Self::GasFitter, Self::Electrician, Self::Site];

    /// Names it in words and files.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Workshop => "workshop",
            Self::GasFitter => "gas_fitter",
            Self::Electrician => "electrician",
            Self::Site => "site",
        }
    }
}

/// What a question takes.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Tool {
    /// Nothing.
    #[default]
    Nothing,
    /// A torch.
    Torch,
    /// A meter for 12 V.
    Meter,
    /// A spare fuse of the same rating.
    Fuse,
}

impl Tool {
    /// Each of them.
    pub const ALL: [Self; 4] = [Self::Nothing, Self::Torch, Self::Meter, Self::Fuse];

    /// Names it in words and files.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Nothing => "nothing",
            Self::Torch => "torch",
            Self::Meter => "meter",
            Self::Fuse => "fuse",
        }
    }
}

/// What somebody can look at, listen to or try.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Question {
    /// Its id within the symptom.
    pub id: String,
    /// Where it is answered, the first of these that is fitted: `kind` or `kind.variable`. Anywhere,
    /// without this; where none is fitted, nobody is asked.
    #[serde(default)]
    pub at: Vec<String>,
    /// Of the fittings of such a kind only one with these pack values, where it has them.
    #[serde(default)]
    pub at_when: Vec<When>,
    /// How long it takes, without the walk. Unit: s, at least 1.
    pub seconds: u32,
    /// What it takes.
    #[serde(default)]
    pub tool: Tool,
    /// It bears on a hazard, and so has a caution.
    #[serde(default)]
    pub danger: bool,
    /// Earlier questions that come before it, as long as they still tell anything.
    #[serde(default)]
    pub after: Vec<String>,
    /// What may be seen: two or more.
    #[serde(rename = "answer")]
    pub answers: Vec<Answer>,
}

/// What may be seen.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    /// Its id within the question.
    pub id: String,
    /// It leaves only these causes.
    pub leaves: Option<Vec<String>>,
    /// Or it rules out these, and leaves the others.
    #[serde(default)]
    pub rules_out: Vec<String>,
    /// How likely it is under a cause that leaves more than one answer, 0 to 1; see
    /// [`Question::chances`].
    #[serde(default)]
    pub chance: BTreeMap<String, f64>,
    /// Where the vehicle's state gives it without asking.
    pub known: Option<Condition>,
    /// What it says of the vehicle: one setting each.
    #[serde(default)]
    pub says: Vec<Literal>,
}

impl Answer {
    /// Whether it may be seen under a cause.
    #[must_use]
    pub fn allows(&self, cause: &str) -> bool {
        let is = |one: &String| one == cause;
        match &self.leaves {
            Some(left) => left.iter().any(is),
            None => !self.rules_out.iter().any(is),
        }
    }
}

impl Question {
    /// The chance of each of its answers under a cause: as the file says; what is left to 1 is
    /// shared evenly by the possible ones of which it says nothing. They add up to 1 where the
    /// catalogue's check passes.
    #[must_use]
    pub fn chances(&self, cause: &str) -> Vec<f64> {
        let said = |answer: &Answer| answer.chance.get(cause).copied();
        let told: f64 = self.answers.iter().filter_map(said).sum();
        let open = |answer: &&Answer| answer.allows(cause) && said(answer).is_none();
        let open = u32::try_from(self.answers.iter().filter(open).count()).unwrap_or(u32::MAX);
        let even = (1.0 - told) / f64::from(open.max(1));
        let of =
            |answer: &Answer| if answer.allows(cause) { said(answer).unwrap_or(even) } else { 0.0 };
        self.answers.iter().map(of).collect()
    }
}

impl Fault {
    /// What its words stand under.
    #[must_use]
    pub fn words(&self) -> String {
        format!("fault.{}", self.symptom)
    }

    /// Everything that it speaks of.
    pub fn literals(&self) -> impl Iterator<Item = &Literal> {
        let answers = self.questions.iter().flat_map(|one| &one.answers);
        let known = answers.clone().filter_map(|answer| answer.known.as_ref());
        let unless = self.causes.iter().filter_map(|cause| cause.unless.as_ref());
        let conditions = known.chain(unless);
        let asked = conditions.flat_map(|one| one.only_if.iter().chain(&one.any_of));
        asked.chain(answers.flat_map(|answer| &answer.says))
    }
}
