//! Pages as lines of text, or as JSON.

mod ahead;
mod alert;
mod card;
mod carry;
mod drive_card;
mod emergency;
mod fault;
mod fridge;
mod list;
mod photo;
mod reckon;
mod recorded;
mod remind;
mod reserve;

pub(crate) use fridge::leaving;
pub(crate) use reckon::UNTIL;

use std::io::{self, IsTerminal, Write};
use std::path::PathBuf;

use anstyle::{AnsiColor, Style};
use chrono::DateTime;
use serde::Serialize;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{
    ActionRow, Engine, GestureKind, GestureRow, ItemRow, NowPage, RoutinePage, RunRow, SharedPage,
    StandsRow, StepKind, StepRow, ThingRow, VariantRow, VerdictKind,
};
use stowfast_core::vehicle::Vehicle;
use stowfast_core::{Error, Result};

use crate::called::as_typed;
use crate::json;
use crate::zone::Zone;

const BOLD: Style = Style::new().bold();
const FAINT: Style = Style::new().dimmed();
const CAUTION: Style = AnsiColor::Yellow.on_default();

/// A line to standard output of what to type, as it has to be typed.
pub(crate) fn hint(text: &str) -> Result<()> {
    plain(&as_typed(text))
}

/// A line to standard output, word for word.
pub(crate) fn plain(text: &str) -> Result<()> {
    writeln!(io::stdout(), "{text}")
        .map_err(|source| Error::Io { path: PathBuf::from("standard output"), source })
}

/// How to say what a routine lacks.
pub(crate) const TELL: &str =
    "To say how something is: stowfast report THING SETTING. All of them: stowfast things";

/// Something to know beside the answer: to standard error, so that the answer stays whole. That
/// nobody reads there is no reason not to answer.
pub(crate) fn notice(text: &str) {
    let _ = writeln!(io::stderr(), "{text}");
}

/// A page as one line of JSON.
fn object(name: &str, value: &impl Serialize) -> Result<()> {
    plain(&json::object(name, value).map_err(|error| Error::Internal(error.to_string()))?)
}

/// Where pages go.
pub(crate) struct Out {
    pub(crate) json: bool,
    colour: bool,
    pub(crate) zone: Zone,
}

impl Out {
    pub(crate) fn new(json: bool, zone: Zone) -> Self {
        let plain = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        Self { json, colour: !plain && !json && io::stdout().is_terminal(), zone }
    }

    fn styled(&self, style: Style, text: &str) -> String {
        if self.colour { format!("{style}{text}{style:#}") } else { text.to_owned() }
    }

    pub(crate) fn now(&self, engine: &Engine, now: &Stamp) -> Result<()> {
        let page = engine.now_page(now)?;
        let leaving = engine.preview("ready_to_drive", now)?;
        if self.json {
            #[derive(Serialize)]
            struct Both<'a> {
                now_page: &'a NowPage,
                leaving: &'a RoutinePage,
            }
            return object("now", &Both { now_page: &page, leaving: &leaving });
        }
        if !page.emergency.is_empty() {
            return self.emergency(&page.emergency);
        }
        self.verdict(&page)?;
        plain("")?;
        self.reminders(&page.reminders)?;
        self.fridge(page.fridge.as_ref())?;
        plain("")?;
        if !page.moving && page.stands.is_none() {
            self.routine(&leaving)?;
            plain("")?;
        }
        let next = match (&page.run, &page.stands) {
            _ if page.moving => "arrive",
            (Some(_), _) => "walk",
            (None, Some(stands)) => &format!("walk {}", stands.target_id),
            (None, None) if page.verdict == VerdictKind::Clear => "drive",
            (None, None) => "walk ready_to_drive",
        };
        hint(&format!("Next: stowfast {next}   |   stowfast --help"))
    }

    /// Ready to drive, or everything that is in the way.
    fn verdict(&self, page: &NowPage) -> Result<()> {
        plain(&self.styled(BOLD, &page.vehicle_title))?;
        if !page.place_title.is_empty() {
            plain(&page.place_title)?;
        }
        if let Some(run) = &page.run {
            let RunRow { target_title, done_count, left_count, .. } = run;
            plain(&format!("Under way: {target_title}, {done_count} done, {left_count} left"))?;
        }
        plain("")?;
        if let Some(stands) = &page.stands {
            self.stands(stands)?;
        }
        if page.moving {
            plain(&self.styled(BOLD, &page.headline))?;
        } else {
            plain(&self.styled(BOLD, &format!("{} {}", mark(page.verdict), page.headline)))?;
            plain(&page.detail)?;
        }
        if page.stands.is_some() && !page.items.is_empty() {
            return plain("All of it: stowfast plan ready_to_drive");
        }
        self.items(&page.items)
    }

    /// What a routine left it in, and what of that is not so or was not seen.
    fn stands(&self, page: &StandsRow) -> Result<()> {
        let StandsRow { headline, finished, since_utc_ms, target_title, .. } = page;
        let at = since_utc_ms.and_then(DateTime::from_timestamp_millis);
        let (word, lead) = if *finished { ("Since", "Next") } else { ("Begun", "Go on with") };
        let since = at.map_or_else(String::new, |at| format!(" {word} {}.", at.format("%F")));
        plain(&format!("{}{since} {lead}: {target_title}", self.styled(BOLD, headline)))?;
        if !page.items.is_empty() {
            plain(&self.styled(BOLD, &format!("Not done, or not known ({}):", page.led_title)))?;
            self.items(&page.items)?;
            plain(&format!("The steps: stowfast plan {}", page.led_id))?;
        }
        if !page.not_seen.is_empty() {
            plain(&self.styled(BOLD, "Said, or taken for granted, and not seen:"))?;
            page.not_seen.iter().try_for_each(|one| plain(&format!("  ? {one}")))?;
        }
        plain("")
    }

    fn items(&self, items: &[ItemRow]) -> Result<()> {
        for item in items {
            let sign = if item.known_bad { "✗" } else { "?" };
            plain(&format!("  {sign} {} — must be: {}", item.title, item.wanted))?;
            plain(&format!("      now {}", item.seen))?;
            plain(&self.styled(FAINT, &format!("      {} ({})", item.reason, item.source)))?;
            if let Some(stuck) = &item.stuck {
                plain(&format!("      Cannot be moved. {}", stuck.text))?;
                plain(&self.styled(
                    FAINT,
                    &format!("      It moves again: stowfast freed {}", stuck.entry),
                ))?;
            }
        }
        Ok(())
    }

    pub(crate) fn routine(&self, page: &RoutinePage) -> Result<()> {
        if self.json {
            return object("routine", page);
        }
        let minutes = page.elapsed_s.saturating_add(59) / 60;
        let title = &page.run.target_title;
        let head = match page.steps.len() {
            0 if page.finished => page.headline.clone(),
            0 => format!("{title}. {}", page.headline),
            1 => format!("{title}: one step, about {minutes} min"),
            left => {
                let gestures = page.gesture_count;
                format!("{title}: {left} steps, about {minutes} min, confirmed {gestures} times")
            }
        };
        let caution = |said: &String| plain(&self.styled(CAUTION, &format!("  ! {said}")));
        // Where there is nothing to do, what to do and leave alone comes before that.
        let (first, then) =
            page.warnings.split_at(if page.steps.is_empty() { page.warnings.len() } else { 0 });
        first.iter().try_for_each(caution)?;
        plain(&self.styled(BOLD, &head))?;
        then.iter().chain(&page.impossible).try_for_each(caution)?;
        for row in &page.stuck {
            plain(&format!("  [{}] {}", row.entry, row.text))?;
        }
        for row in &page.cannot_move {
            plain(&self.styled(
                FAINT,
                &format!("      {} moves again: stowfast freed {}", row.title, row.entry),
            ))?;
        }
        page.part_end.iter().try_for_each(|end| plain(&self.styled(BOLD, end)))?;
        if let Some(until) = page.until_utc_ms {
            let at = self.zone.local(until).format("%F %R (UTC%:z)");
            plain(&format!("Look again at about {at}."))?;
        }
        let mut zone = "";
        let mut steps = page.steps.iter().enumerate();
        for stop in &page.stops {
            for gesture in &stop.gestures {
                let mut how = Some(how(gesture));
                for (at, step) in steps.by_ref().take(gesture.steps.len()) {
                    self.zone(&mut zone, step)?;
                    how.take().map_or(Ok(()), |how| plain(&format!("   • {how}")))?;
                    self.step(&format!("{:>3}.", at.saturating_add(1)), step)?;
                }
            }
            stop.part_end.iter().try_for_each(|end| plain(&self.styled(BOLD, end)))?;
        }
        if page.steps.is_empty() && !page.impossible.is_empty() {
            hint(TELL)?;
        }
        self.variants(page)?;
        if page.finished { plain(&page.end_text) } else { Ok(()) }
    }

    /// The other ways of wanting what the page leads to.
    fn variants(&self, page: &RoutinePage) -> Result<()> {
        for one in page.variants.iter().filter(|one| !one.chosen) {
            let minutes = one.elapsed_s.saturating_add(59) / 60;
            let id = one.id.rsplit('/').next().unwrap_or_default();
            let VariantRow { title, step_count: steps, gesture_count: times, .. } = one;
            plain(&format!(
                "  or {title}: {steps} steps, about {minutes} min, confirmed {times} times"
            ))?;
            plain(&format!("      {}", one.about))?;
            for reason in &one.impossible {
                plain(&self.styled(CAUTION, &format!("      ! {reason}")))?;
            }
            plain(&self.styled(FAINT, &format!("      --variant {id}")))?;
        }
        Ok(())
    }

    /// The lists of two people.
    pub(crate) fn shared(&self, page: &SharedPage) -> Result<()> {
        if self.json {
            return object("shared", page);
        }
        plain(&self.styled(BOLD, &format!("{}. {}", page.target_title, page.headline)))?;
        for warning in page.warnings.iter().chain(&page.impossible) {
            plain(&self.styled(CAUTION, &format!("  ! {warning}")))?;
        }
        for person in &page.people {
            plain(&self.styled(BOLD, &person.title))?;
            let mut zone = "";
            for (at, row) in person.steps.iter().enumerate() {
                self.zone(&mut zone, &row.step)?;
                if let Some(word) = &row.word_text {
                    plain(&self.styled(CAUTION, &format!("       {word}")))?;
                }
                self.step(&format!("{:>3}.", at.saturating_add(1)), &row.step)?;
            }
        }
        Ok(())
    }

    /// The heading of a zone, where a step is in another one than the step before.
    fn zone<'a>(&self, last: &mut &'a str, step: &'a StepRow) -> Result<()> {
        if step.zone_title == *last {
            return Ok(());
        }
        *last = &step.zone_title;
        plain(&self.styled(BOLD, &format!("  {last}")))
    }

    /// One step with its cautions and reasons.
    pub(crate) fn step(&self, number: &str, step: &StepRow) -> Result<()> {
        plain(&format!("  {number} {} {}", kind(step.kind), step.text))?;
        if step.kind == StepKind::Look {
            plain(&format!("            → {}", step.wanted))?;
        }
        for caution in &step.cautions {
            plain(&self.styled(CAUTION, &format!("            ! {caution}")))?;
        }
        for why in &step.why {
            plain(&self.styled(FAINT, &format!("            because: {why}")))?;
        }
        plain(&self.styled(FAINT, &format!("            {}", step.id)))
    }

    /// A list in walking order, each place named once.
    fn by_zone<T>(
        &self,
        rows: &[T],
        zone: impl Fn(&T) -> &str,
        show: impl Fn(&T) -> Result<()>,
    ) -> Result<()> {
        let mut last = "";
        for row in rows {
            if zone(row) != last {
                last = zone(row);
                plain(&self.styled(BOLD, last))?;
            }
            show(row)?;
        }
        Ok(())
    }

    pub(crate) fn steps(&self, rows: &[ActionRow]) -> Result<()> {
        if self.json {
            return object("steps", &rows);
        }
        let width = rows.iter().map(|row| row.id.len()).max().unwrap_or_default();
        self.by_zone(
            rows,
            |row| &row.zone_title,
            |row| {
                let kind = kind(row.kind);
                plain(&format!("  {kind} {:<width$}  {}", row.id, row.text))
            },
        )
    }

    pub(crate) fn things(&self, rows: &[ThingRow]) -> Result<()> {
        if self.json {
            return object("things", &rows);
        }
        self.by_zone(
            rows,
            |row| &row.zone_title,
            |row| {
                let assumed = (row.believed.len() < row.choices.len()).then_some("assumed");
                let how = row.age_text.as_deref().or(assumed);
                let how = how.map(|how| format!(" ({how})")).unwrap_or_default();
                plain(&format!("  {}: {}{how}", row.title, row.current_text))?;
                let ids: Vec<_> = row.choices.iter().map(|choice| choice.id.as_str()).collect();
                plain(&self.styled(FAINT, &format!("      {} {}", row.variable, ids.join("|"))))
            },
        )
    }

    pub(crate) fn checked(&self, vehicle: &Vehicle) -> Result<()> {
        if self.json {
            return object("checked", &vehicle.title);
        }
        // The pitch and the like stand in no pack.
        let listed = vehicle.fittings.iter().filter(|fitting| !fitting.title.is_empty());
        let (fittings, clauses) = (listed.count(), vehicle.clauses.len());
        plain(&format!("{}: reads well. {fittings} fittings, {clauses} rules.", vehicle.title))
    }
}

fn kind(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Move => "do  ",
        StepKind::Look => "look",
        StepKind::Wait => "wait",
    }
}

/// How a gesture confirms its steps.
fn how(gesture: &GestureRow) -> String {
    let on_purpose = if gesture.hold { ", on purpose" } else { "" };
    match (gesture.kind, gesture.steps.len()) {
        (GestureKind::Wait, _) => "time does it".to_owned(),
        (_, 1) => format!("by itself{on_purpose}"),
        (_, lines) => format!("{lines} lines together{on_purpose}"),
    }
}

fn mark(verdict: VerdictKind) -> &'static str {
    match verdict {
        VerdictKind::Clear => "✓",
        VerdictKind::Unknown => "?",
        VerdictKind::Blocked => "✗",
    }
}
