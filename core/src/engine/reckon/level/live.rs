//! The level by a phone, looked at without end: all that it needs is looked up once, and no store is
//! asked again.

use super::leaning::{Leaning, Stands};
use super::{PHONE, PHONE_SET, cautions, stands};
use crate::catalogue::{Text, text};
use crate::clock::Stamp;
use crate::engine::Engine;
use crate::engine::figure::of_milli;
use crate::engine::loaded::Loaded;
use crate::engine::page::{Changes, LevelPage, LevelRest, Pick};
use crate::engine::reckon::asked::Asked;
use crate::engine::reckon::module;
use crate::engine::reckon::speech::Speech;
use crate::error::{Error, Result};
use crate::reckon::level::{Lean, Phone, Rest, Sight, Up};
use crate::state::Entry;
use crate::units::Units;

const ID: &str = "level";
/// How its phone lies, as it is kept.
const AHEAD: &str = "phone_ahead_deg";
const LEFT: &str = "phone_left_deg";
/// Where the bubble stands at its edge. Unit: degrees.
const EDGE_DEG: f64 = 5.0;

/// The level of one vehicle, by a phone that lies in it.
#[derive(Debug, Clone)]
pub struct Level {
    text: &'static Text,
    units: Units,
    stands: Stands,
    phone: Phone,
    /// What was shown last, and of which way up.
    shown: Option<Up>,
    page: LevelPage,
}

impl Engine {
    /// The level of the current vehicle, as it is known now.
    ///
    /// # Errors
    /// [`Error::NotFound`] for a vehicle that cannot be asked for its level, [`Error::Conflict`] while no
    /// vehicle is chosen.
    pub fn level(&self, now: &Stamp) -> Result<Level> {
        let loaded = self.at(now)?;
        module(ID, &loaded)?;
        let words = loaded.words(&self.language)?;
        let mut asked = Asked::new(ID, &loaded, &words, &[], now);
        let stands = stands(&mut asked);
        let set = loaded.phone_rest();
        let error = |deg: f64| asked.quantity("_deg", deg);
        let set_text = match &set {
            Some((entry, _)) => {
                let age = words.age(loaded.age_of_entry(entry, now));
                asked.say("live.set", &[("age", &age), ("error", &error(PHONE_SET.1))])
            }
            None => asked.say("live.unset", &[("error", &error(PHONE.1))]),
        };
        let page = LevelPage {
            mark: None,
            verdict_text: String::new(),
            bubble_ahead: None,
            bubble_left: None,
            lean: Vec::new(),
            wheels: Vec::new(),
            set_text,
            is_set: set.is_some(),
            rest: None,
            picks: Vec::new(),
            missing: stands.missing(&asked),
            cautions: Vec::new(),
            how: asked.text.below("reckon.level.how.").map(str::to_owned).collect(),
        };
        let phone = Phone::new(set.map(|(_, rest)| rest));
        let text = text::of(loaded.catalogue, &self.language)?;
        Ok(Level { text, units: loaded.units, stands, phone, shown: None, page })
    }

    /// Keeps how the phone lies as level; `None` forgets it. One transaction of two entries.
    ///
    /// # Errors
    /// As [`Engine::level`], and [`Error::InvalidInput`] for a phone that does not lie flat.
    pub fn set_level(&mut self, rest: Option<LevelRest>, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        module(ID, &loaded)?;
        let words = loaded.words(&self.language)?;
        let told =
            [(AHEAD, rest.map(|rest| rest.ahead_deg)), (LEFT, rest.map(|rest| rest.left_deg))];
        let entry = |(id, deg): (&str, Option<f64>)| {
            let none = || Error::NotFound { kind: "figure", id: id.to_owned() };
            let figure = loaded.figures().find(|figure| figure.id == id).ok_or_else(none)?;
            let deg = deg.map(|deg| (deg * 1_000.0).round() / 1_000.0);
            loaded.tells(&words, figure, deg, now)
        };
        let entries = told.into_iter().map(entry).collect::<Result<Vec<_>>>()?;
        self.finish(&entries, Vec::new(), now)
    }
}

impl Loaded {
    /// How the phone lies while the vehicle stands level, and where that was told: both numbers at once,
    /// so that no half of one is taken with half of another. What a file tells may be no way to lie.
    fn phone_rest(&self) -> Option<(&Entry, Rest)> {
        let (entry, ahead) = self.told_figure(AHEAD)?;
        let (other, left) = self.told_figure(LEFT)?;
        let rest = Rest { ahead_deg: of_milli(ahead), left_deg: of_milli(left) };
        (entry.said.at == other.said.at && rest.up().is_some()).then_some((entry, rest))
    }
}

impl Level {
    /// What is shown after one more look. What is no number is said to be so, and changes nothing.
    ///
    /// # Units
    /// `felt`: m/s², along the axes of the phone, as [`crate::reckon::level::of_phone`] has them.
    pub fn feel(&mut self, felt: [f64; 3]) -> LevelPage {
        let speech = Speech { id: ID, text: self.text, units: self.units };
        let key = match self.phone.feel(felt) {
            Sight::Still { lies, up } => {
                if self.shown != Some(up) {
                    self.show(&speech, up);
                }
                let Rest { ahead_deg, left_deg } = Rest::of(lies);
                return LevelPage {
                    rest: Some(LevelRest { ahead_deg, left_deg }),
                    ..self.page.clone()
                };
            }
            Sight::Broken => "broken",
            Sight::Shaken => "shaken",
            Sight::FaceDown => "face_down",
            Sight::Steep => "steep",
        };
        let verdict_text = speech.say(&format!("live.{key}"), &[]);
        LevelPage { mark: None, verdict_text, picks: Vec::new(), ..self.page.clone() }
    }

    fn show(&mut self, speech: &Speech, up: Up) {
        let lean = up.lean();
        let (by, error_deg) = if self.page.is_set { PHONE_SET } else { PHONE };
        let leaning = Leaning::of(&self.stands, lean, error_deg);
        let (key, what) = leaning.verdict(speech);
        // It is read aloud: no number that twitches.
        let slots = [("what", &*what), ("low", &*leaning.low(speech, false))];
        let then = leaning.stand.as_ref().filter(|_| key == "ramps");
        let then = then.map(|stand| leaning.then(speech, stand));
        let place = |deg: f64| Some((deg / EDGE_DEG).clamp(-1.0, 1.0));
        self.shown = Some(up);
        self.page = LevelPage {
            mark: Some(leaning.mark),
            verdict_text: speech.say(&format!("live.{key}"), &slots),
            bubble_ahead: place(lean.pitch_deg),
            bubble_left: place(lean.roll_deg),
            lean: leaning
                .sides(speech)
                .into_iter()
                .chain(leaning.tilts(speech))
                .chain(then)
                .collect(),
            wheels: leaning.wheels(speech),
            picks: picks(lean, by),
            cautions: if key == "fine" { Vec::new() } else { cautions(speech) },
            ..self.page.clone()
        };
    }
}

/// What the question is asked with for the same answer.
fn picks(lean: Lean, by: &str) -> Vec<Pick> {
    // No minus before a nought.
    let digits = |deg: f64| ((deg * 100.0).round() / 100.0 + 0.0).to_string();
    let all =
        [("pitch", digits(lean.pitch_deg)), ("roll", digits(lean.roll_deg)), ("by", by.to_owned())];
    all.map(|(choice, value)| Pick { choice: choice.to_owned(), value }).into()
}
