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

    pub(crate) fn plain(&mut self, text: &str) -> Result<()> {
        writeln!(io::stdout(), "{text}")
            .map_err(|source| Error::Io { path: PathBuf::from("standard output"), source })
    }

    /// Something to know beside the answer: to standard error, so that the answer stays whole.
    pub(crate) fn notice(&mut self, text: &str) -> Result<()> {
        writeln!(io::stderr(), "{text}")
            .map_err(|source| Error::Io { path: PathBuf::from("standard error"), source })
    }

    fn styled(&self, style: Style, text: &str) -> String {
        if self.colour { format!("{style}{text}{style:#}") } else { text.to_owned() }
    }

    fn object(&mut self, name: &str, value: &impl Serialize) -> Result<()> {
        let line = json::object(name, value).map_err(|error| Error::Internal(error.to_string()))?;
        self.plain(&line)
    }

    pub(crate) fn now(&mut self, engine: &Engine, now: &Stamp) -> Result<()> {
        let page = engine.now_page(now)?;
        let leaving = engine.preview("ready_to_drive", now)?;
        if self.json {
            #[derive(Serialize)]
            struct Both<'a> {
                now_page: &'a NowPage,
                leaving: &'a RoutinePage,
            }
            return self.object("now", &Both { now_page: &page, leaving: &leaving });
        }
        self.plain(&self.styled(BOLD, &page.vehicle_title))?;
        if !page.place_title.is_empty() {
            self.plain(&page.place_title)?;
        }
        self.plain("")?;
        self.plain(&self.styled(BOLD, &format!("{} {}", mark(page.verdict), page.headline)))?;
        self.plain(&page.detail)?;
        for item in &page.items {
            let sign = if item.known_bad { "✗" } else { "?" };
            self.plain(&format!("  {sign} {} — must be: {}", item.title, item.wanted))?;
            self.plain(&format!("      now {}", item.seen))?;
            self.plain(&self.styled(FAINT, &format!("      {} ({})", item.reason, item.source)))?;
        }
        self.plain("")?;
        self.fridge(page.fridge.as_ref())?;
        self.plain("")?;
        self.routine(&leaving)?;
        self.plain("")?;
        self.plain("Next: stowfast walk ready_to_drive   |   stowfast --help")
    }

    pub(crate) fn routine(&mut self, page: &RoutinePage) -> Result<()> {
        if self.json {
            return self.object("routine", page);
        }
        let minutes = (page.elapsed_s + 59) / 60;
        let title = &page.run.target_title;
        let head = match page.steps.len() {
            0 => format!("{title}. {}", page.headline),
            left => format!("{title}: {left} steps, about {minutes} min"),
        };
        self.plain(&self.styled(BOLD, &head))?;
        for warning in page.warnings.iter().chain(&page.impossible) {
            self.plain(&self.styled(CAUTION, &format!("  ! {warning}")))?;
        }
        for row in &page.stuck {
            self.plain(&format!("  [{}] {}", row.entry, row.text))?;
        }
        let mut zone = "";
        for (at, step) in page.steps.iter().enumerate() {
            if step.zone_title != zone {
                zone = &step.zone_title;
                self.plain(&self.styled(BOLD, &format!("  {zone}")))?;
            }
            self.step(&format!("{:>3}.", at + 1), step)?;
        }
        if page.finished {
            self.plain(&page.end_text)?;
        }
        Ok(())
    }

    /// One step with its cautions and reasons.
    pub(crate) fn step(&mut self, number: &str, step: &StepRow) -> Result<()> {
        let kind = match step.kind {
            StepKind::Move => "do  ",
            StepKind::Look => "look",
        };
        self.plain(&format!("  {number} {kind} {}", step.text))?;
        if step.kind == StepKind::Look {
            self.plain(&format!("            → {}", step.wanted))?;
        }
        for caution in &step.cautions {
            self.plain(&self.styled(CAUTION, &format!("            ! {caution}")))?;
        }
        for why in &step.why {
            self.plain(&self.styled(FAINT, &format!("            because: {why}")))?;
        }
        self.plain(&self.styled(FAINT, &format!("            {}", step.id)))
    }

    pub(crate) fn fridge(&mut self, page: Option<&FridgePage>) -> Result<()> {
        if self.json {
            return self.object("fridge", &page);
        }
        let Some(page) = page else {
            return self.plain("No fridge that chooses between mains, 12 V and gas is fitted.");
        };
        self.plain(&self.styled(BOLD, &page.headline))?;
        for line in page.why.iter().chain(&page.next_text).chain(&page.by_hand) {
            self.plain(&format!("  {line}"))?;
        }
        page.cautions
            .iter()
            .try_for_each(|line| self.plain(&self.styled(CAUTION, &format!("  ! {line}"))))
    }

    pub(crate) fn gauges(&mut self, rows: &[GaugeRow]) -> Result<()> {
        if self.json {
            return self.object("gauges", &rows);
        }
        for row in rows {
            let unit = match row.unit {
                GaugeUnit::Lamps => "lamps lit",
                GaugeUnit::Percent => "per cent",
                GaugeUnit::Litres => "litres",
                GaugeUnit::Volts => "volts",
            };
            let age = row.age_text.as_deref().unwrap_or("never read");
            self.plain(&format!("{}: {} ({age})", row.title, row.current_text))?;
            let range = format!("{} to {} {unit}", row.value_min, row.value_max);
            self.plain(&format!("  stowfast read {} VALUE, {range}", row.id))?;
            if let Some(note) = &row.note {
                self.plain(&format!("  A reading would not count: {note}"))?;
            }
            for question in &row.questions {
                let ids: Vec<_> = question.choices.iter().map(|choice| choice.id.as_str()).collect();
                let answer = question.chosen.as_deref().unwrap_or("not answered");
                self.plain(&format!("  {} — {answer}", question.title))?;
                self.plain(&format!("    stowfast report {} {}", question.variable, ids.join("|")))?;
            }
        }
        Ok(())
    }

    pub(crate) fn targets(&mut self, rows: &[TargetRow]) -> Result<()> {
        if self.json {
            return self.object("targets", &rows);
        }
        rows.iter().try_for_each(|row| self.plain(&format!("{:<20} {}", row.id, row.title)))
    }

    pub(crate) fn vehicles(&mut self, rows: &[VehicleRow]) -> Result<()> {
        if self.json {
            return self.object("vehicles", &rows);
        }
        for row in rows {
            let sign = if row.current { "*" } else { " " };
            let invented = if row.invented { " (invented)" } else { "" };
            self.plain(&format!("{sign} {} {}{invented}", row.id, row.title))?;
            if let Some(problem) = &row.problem {
                self.plain(&format!("    its pack no longer reads: {problem}"))?;
            }
        }
        Ok(())
    }

    pub(crate) fn log(&mut self, rows: &[DoneRow]) -> Result<()> {
        if self.json {
            return self.object("log", &rows);
        }
        for row in rows {
            let at = DateTime::from_timestamp_millis(row.at_utc_ms).unwrap_or_default();
            let sign = if row.voided { "×" } else { " " };
            self.plain(&format!("{sign}[{}] {} {}", row.entry, at.format("%F %R"), row.text))?;
        }
        Ok(())
    }

    pub(crate) fn changes(&mut self, changes: &Changes) -> Result<()> {
        if self.json {
            return self.object("changes", changes);
        }
        let numbers: Vec<_> = changes.entries.iter().map(|seq| format!("[{seq}]")).collect();
        self.plain(&format!("Recorded {}", numbers.join(" ")))?;
        changes
            .warnings
            .iter()
            .try_for_each(|line| self.plain(&self.styled(CAUTION, &format!("  ! {line}"))))
    }

    pub(crate) fn refusals(&mut self, step: &str, reasons: &[String]) -> Result<()> {
        if self.json {
            return self.object("refusals", &reasons);
        }
        if reasons.is_empty() {
            return self.plain(&format!("{step}: nothing known stands against it."));
        }
        self.plain(&format!("{step}: not now."))?;
        reasons.iter().try_for_each(|reason| self.plain(&format!("  {reason}")))
    }

    pub(crate) fn checked(&mut self, vehicle: &Vehicle) -> Result<()> {
        if self.json {
            return self.object("checked", &vehicle.title);
        }
        let (fittings, clauses) = (vehicle.fittings.len(), vehicle.clauses.len());
        self.plain(&format!(
            "{}: reads well. {fittings} fittings, {clauses} rules.",
            vehicle.title
        ))
    }
}

fn mark(verdict: VerdictKind) -> &'static str {
    match verdict {
        VerdictKind::Clear => "✓",
        VerdictKind::Unknown => "?",
        VerdictKind::Blocked => "✗",
    }
}
