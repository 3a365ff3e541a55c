//! The shapes that cross: copies of the core's own pages, held equal to them by the compiler.
//!
//! A field or variant that the core gains or loses is a compile error here. What is written on a
//! field here is what the app's authors read, because the Kotlin is generated from this copy.

use stowfast_core::engine::{
    ChoiceRow, DemoRow, EmergencyRow, FridgePage, ItemRow, NowPage, ReminderRow, RunRow, Severity,
    StandsRow, StuckRow, VehicleRow, VerdictKind,
};

/// One vehicle on this phone.
#[uniffi::remote(Record)]
pub struct VehicleRow {
    /// Names it to the engine.
    pub id: i64,
    /// As its pack calls it.
    pub title: String,
    /// True for a vehicle that came with the app and stands for no real one.
    pub invented: bool,
    /// True for the one that every page is about.
    pub current: bool,
    /// Why its pack no longer reads; it then stands in its last good form.
    pub problem: Option<String>,
}

/// An invented vehicle that comes with the app.
#[uniffi::remote(Record)]
pub struct DemoRow {
    /// Names it to the engine.
    pub id: String,
    /// As its pack calls it.
    pub title: String,
    /// What there is to try in it.
    pub about: String,
    /// True where a vehicle of its title is here already: it cannot be added again.
    pub here: bool,
}

/// The answer about the list, never about the vehicle.
#[uniffi::remote(Enum)]
pub enum VerdictKind {
    /// All that must hold is known to hold.
    Clear,
    /// Something that must not be so is so.
    Blocked,
    /// Something that matters is not known.
    Unknown,
}

/// What is at stake.
#[uniffi::remote(Enum)]
pub enum Severity {
    /// People.
    Danger,
    /// The vehicle.
    Damage,
    /// Comfort.
    Nuisance,
}

/// One thing that blocks, or is not known.
#[uniffi::remote(Record)]
pub struct ItemRow {
    /// Names it to the engine.
    pub variable: String,
    /// What it is about; the rule itself where several things hang together.
    pub title: String,
    /// What it must be; where several things hang together, the one way out.
    pub wanted: String,
    /// What it is believed to show.
    pub seen: String,
    /// Why that matters.
    pub reason: String,
    /// Where the rule comes from.
    pub source: String,
    /// What is at stake.
    pub severity: Severity,
    /// True where it is known to be wrong, false where it is not known.
    pub known_bad: bool,
    /// Where to go.
    pub zone_title: String,
    /// What to do and leave alone in this danger, and the caution of the move that mends it.
    pub caution: Option<String>,
    /// It cannot be moved, and what to do instead.
    pub stuck: Option<StuckRow>,
}

/// Something that cannot be moved, until somebody says that it moves again.
#[uniffi::remote(Record)]
pub struct StuckRow {
    /// The entry that says so, to be taken back.
    pub entry: i64,
    /// What it is.
    pub title: String,
    /// What to do instead.
    pub text: String,
}

/// A routine being carried out.
#[uniffi::remote(Record)]
pub struct RunRow {
    /// Names it to the engine.
    pub id: i64,
    /// What it leads to.
    pub target_id: String,
    /// The same in words.
    pub target_title: String,
    /// True while it waits to be resumed.
    pub paused: bool,
    /// Steps done.
    pub done_count: i32,
    /// Steps left, as planned now.
    pub left_count: i32,
    /// True where it ends on the road.
    pub road: bool,
}

/// A danger that no step leads out of: only somebody's word ends it.
#[uniffi::remote(Record)]
pub struct EmergencyRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// What it is, and how it stands.
    pub title: String,
    /// What to do now, the most urgent first.
    pub text: String,
    /// What can be said of it.
    pub choices: Vec<ChoiceRow>,
}

/// What a routine left the vehicle in until another one ends it.
#[uniffi::remote(Record)]
pub struct StandsRow {
    /// In a plain line.
    pub headline: String,
    /// True where it was carried out; else it was begun and left.
    pub finished: bool,
    /// When it was finished, or begun, where that is known.
    pub since_utc_ms: Option<i64>,
    /// What to offer first.
    pub target_id: String,
    /// The same in words.
    pub target_title: String,
    /// The routine that leads into it.
    pub led_id: String,
    /// The same in words.
    pub led_title: String,
    /// What that routine asks and is known not to be so, or not known to be so.
    pub items: Vec<ItemRow>,
    /// What is as it asks by somebody's word alone, or as far as nobody said otherwise.
    pub not_seen: Vec<String>,
}

/// What the vehicle is doing and what matters next.
#[uniffi::remote(Record)]
pub struct NowPage {
    /// What to do now in the dangers that no step leads out of; before anything else.
    pub emergency: Vec<EmergencyRow>,
    /// The vehicle.
    pub vehicle_title: String,
    /// Where it stands.
    pub place_title: String,
    /// True on the road: then the items are what is known to be wrong.
    pub moving: bool,
    /// Ready to drive, or not, or not known.
    pub verdict: VerdictKind,
    /// The same in words.
    pub headline: String,
    /// What it rests on.
    pub detail: String,
    /// All that blocks or is not known, worst first.
    pub items: Vec<ItemRow>,
    /// How many items the list has in all.
    pub item_count: i32,
    /// How old the oldest look is.
    pub oldest_look_text: Option<String>,
    /// True where the phone's clock was set while something was being timed.
    pub clock_changed: bool,
    /// The routine under way.
    pub run: Option<RunRow>,
    /// What a routine left it in, such as laid up for winter, and what ends that.
    pub stands: Option<StandsRow>,
    /// The fridge, where one is fitted that can choose.
    pub fridge: Option<FridgePage>,
    /// What to fill or empty soon, the soonest first.
    pub reminders: Vec<ReminderRow>,
    /// When there will be one more of these, as things are used now. Unit: ms since 1970-01-01 UTC.
    pub remind_utc_ms: Option<i64>,
}
