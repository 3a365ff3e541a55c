//! Pages as lines of text, or as JSON.

use std::io::{self, IsTerminal, Write};
use std::path::PathBuf;

use anstyle::{AnsiColor, Style};
use chrono::DateTime;
use serde::Serialize;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{
    Changes, DoneRow, Engine, FridgePage, GaugeRow, GaugeUnit, NowPage, RoutinePage, StepKind,
    StepRow, TargetRow, VehicleRow, VerdictKind,
};
use stowfast_core::vehicle::Vehicle;
use stowfast_core::{Error, Result};

use crate::json;

const BOLD: Style = Style::new().bold();
const FAINT: Style = Style::new().dimmed();
const CAUTION: Style = AnsiColor::Yellow.on_default();

/// A line to standard output.
pub(crate) fn plain(text: &str) -> Result<()> {
    writeln!(io::stdout(), "{text}")
        .map_err(|source| Error::Io { path: PathBuf::from("standard output"), source })
}

/// Something to know beside the answer: to standard error, so that the answer stays whole.
pub(crate) fn notice(text: &str) -> Result<()> {
    writeln!(io::stderr(), "{text}")
        .map_err(|source| Error::Io { path: PathBuf::from("standard error"), source })
}

/// A page as one line of JSON.
fn object(name: &str, value: &impl Serialize) -> Result<()> {
    let line = json::object(name, value).map_err(|error| Error::Internal(error.to_string()))?;
    plain(&line)
}

/// Where pages go.
pub(crate) struct Out {
    json: bool,
    colour: bool,
}

impl Out {
    pub(crate) fn new(json: bool) -> Self {
        let plain = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        Self { json, colour: !plain && !json && io::stdout().is_terminal() }
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
        self.verdict(&page)?;
        plain("")?;
        self.fridge(page.fridge.as_ref())?;
        plain("")?;
        self.routine(&leaving)?;
        plain("")?;
        plain("Next: stowfast walk ready_to_drive   |   stowfast --help")
    }

    /// Ready to drive, or everything that is in the way.
    fn verdict(&self, page: &NowPage) -> Result<()> {
        plain(&self.styled(BOLD, &page.vehicle_title))?;
        if !page.place_title.is_empty() {
            plain(&page.place_title)?;
        }
        plain("")?;
        plain(&self.styled(BOLD, &format!("{} {}", mark(page.verdict), page.headline)))?;
        plain(&page.detail)?;
        for item in &page.items {
            let sign = if item.known_bad { "✗" } else { "?" };
            plain(&format!("  {sign} {} — must be: {}", item.title, item.wanted))?;
            plain(&format!("      now {}", item.seen))?;
            plain(&self.styled(FAINT, &format!("      {} ({})", item.reason, item.source)))?;
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
            0 => format!("{title}. {}", page.headline),
            1 => format!("{title}: one step, about {minutes} min"),
            left => format!("{title}: {left} steps, about {minutes} min"),
        };
        plain(&self.styled(BOLD, &head))?;
        for warning in page.warnings.iter().chain(&page.impossible) {
            plain(&self.styled(CAUTION, &format!("  ! {warning}")))?;
        }
        for row in &page.stuck {
            plain(&format!("  [{}] {}", row.entry, row.text))?;
        }
        let mut zone = "";
        for (at, step) in page.steps.iter().enumerate() {
            if step.zone_title != zone {
                zone = &step.zone_title;
                plain(&self.styled(BOLD, &format!("  {zone}")))?;
            }
            self.step(&format!("{:>3}.", at.saturating_add(1)), step)?;
        }
        if page.finished {
            plain(&page.end_text)?;
        }
        Ok(())
    }

    /// One step with its cautions and reasons.
    pub(crate) fn step(&self, number: &str, step: &StepRow) -> Result<()> {
        let kind = match step.kind {
            StepKind::Move => "do  ",
            StepKind::Look => "look",
        };
        plain(&format!("  {number} {kind} {}", step.text))?;
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

    pub(crate) fn fridge(&self, page: Option<&FridgePage>) -> Result<()> {
        if self.json {
            return object("fridge", &page);
        }
        let Some(page) = page else {
            return plain("No fridge that chooses between mains, 12 V and gas is fitted.");
        };
        plain(&self.styled(BOLD, &page.headline))?;
        for line in page.why.iter().chain(&page.next_text).chain(&page.by_hand) {
            plain(&format!("  {line}"))?;
        }
        page.cautions
            .iter()
            .try_for_each(|line| plain(&self.styled(CAUTION, &format!("  ! {line}"))))
    }

    pub(crate) fn gauges(&self, rows: &[GaugeRow]) -> Result<()> {
        if self.json {
            return object("gauges", &rows);
        }
        for row in rows {
            let unit = match row.unit {
                GaugeUnit::Lamps => "lamps lit",
                GaugeUnit::Percent => "per cent",
                GaugeUnit::Litres => "litres",
                GaugeUnit::Volts => "volts",
            };
            let age = row.age_text.as_deref().unwrap_or("never read");
            plain(&format!("{}: {} ({age})", row.title, row.current_text))?;
            let range = format!("{} to {} {unit}", row.value_min, row.value_max);
            plain(&format!("  stowfast read {} VALUE, {range}", row.id))?;
            if let Some(note) = &row.note {
                let against = if row.counts { "" } else { "A reading would not count: " };
                plain(&format!("  {against}{note}"))?;
            }
            for question in &row.questions {
                let ids: Vec<_> =
                    question.choices.iter().map(|choice| choice.id.as_str()).collect();
                let answer = question.chosen.as_deref().unwrap_or("not answered");
                plain(&format!("  {} — {answer}", question.title))?;
                plain(&format!("    stowfast report {} {}", question.variable, ids.join("|")))?;
            }
        }
        Ok(())
    }

    pub(crate) fn targets(&self, rows: &[TargetRow]) -> Result<()> {
        if self.json {
            return object("targets", &rows);
        }
        rows.iter().try_for_each(|row| plain(&format!("{:<20} {}", row.id, row.title)))
    }

    pub(crate) fn vehicles(&self, rows: &[VehicleRow]) -> Result<()> {
        if self.json {
            return object("vehicles", &rows);
        }
        for row in rows {
            let sign = if row.current { "*" } else { " " };
            let invented = if row.invented { " (invented)" } else { "" };
            plain(&format!("{sign} {} {}{invented}", row.id, row.title))?;
            if let Some(problem) = &row.problem {
                plain(&format!("    its pack no longer reads: {problem}"))?;
            }
        }
        Ok(())
    }

    pub(crate) fn log(&self, rows: &[DoneRow]) -> Result<()> {
        if self.json {
            return object("log", &rows);
        }
        for row in rows {
            let at = DateTime::from_timestamp_millis(row.at_utc_ms).unwrap_or_default();
            let sign = if row.voided { "×" } else { " " };
            plain(&format!("{sign}[{}] {} {}", row.entry, at.format("%F %R"), row.text))?;
        }
        Ok(())
    }

    pub(crate) fn changes(&self, changes: &Changes) -> Result<()> {
        if self.json {
            return object("changes", changes);
        }
        let numbers: Vec<_> = changes.entries.iter().map(|seq| format!("[{seq}]")).collect();
        plain(&format!("Recorded {}", numbers.join(" ")))?;
        changes
            .warnings
            .iter()
            .try_for_each(|line| plain(&self.styled(CAUTION, &format!("  ! {line}"))))
    }

    pub(crate) fn refusals(&self, step: &str, reasons: &[String]) -> Result<()> {
        if self.json {
            return object("refusals", &reasons);
        }
        if reasons.is_empty() {
            return plain(&format!("{step}: nothing known stands against it."));
        }
        plain(&format!("{step}: not now."))?;
        reasons.iter().try_for_each(|reason| plain(&format!("  {reason}")))
    }

    pub(crate) fn checked(&self, vehicle: &Vehicle) -> Result<()> {
        if self.json {
            return object("checked", &vehicle.title);
        }
        let (fittings, clauses) = (vehicle.fittings.len(), vehicle.clauses.len());
        plain(&format!("{}: reads well. {fittings} fittings, {clauses} rules.", vehicle.title))
    }
}

fn mark(verdict: VerdictKind) -> &'static str {
    match verdict {
        VerdictKind::Clear => "✓",
        VerdictKind::Unknown => "?",
        VerdictKind::Blocked => "✗",
    }
}
