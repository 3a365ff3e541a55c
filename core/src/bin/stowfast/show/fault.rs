//! What does not work, and the search for its cause.

use stowfast_core::Result;
use stowfast_core::engine::{
    CauseRow, Changes, CheckRow, ContraryRow, Engine, FaultPage, FaultRow, FaultStage, LinkRow,
};

use super::{BOLD, CAUTION, FAINT, Out, hint, kind, notice, object, plain};

impl Out {
    pub(crate) fn faults(&self, rows: &[FaultRow]) -> Result<()> {
        if self.json {
            return object("faults", &rows);
        }
        let width = rows.iter().map(|row| row.id.len()).max().unwrap_or_default();
        for row in rows {
            let stage = match (row.stage, row.said_count) {
                (FaultStage::Mended, _) => " – works again",
                (_, 0) => "",
                (_, _) => " – begun",
            };
            plain(&format!("{:<width$}  {}{stage}", row.id, row.title))?;
        }
        hint("Find the cause: stowfast fault FAULT")
    }

    /// What was recorded and its warnings, beside a page that is the answer.
    pub(crate) fn beside(&self, engine: &Engine, changes: &Changes) -> Result<()> {
        if self.json {
            changes.warnings.iter().for_each(|line| notice(line));
            return Ok(());
        }
        self.changes(engine, changes, String::new)
    }

    pub(crate) fn fault(&self, page: &FaultPage) -> Result<()> {
        if self.json {
            return object("fault", page);
        }
        if !page.emergency.is_empty() {
            return self.emergency(&page.emergency);
        }
        plain(&self.styled(BOLD, &page.fault.title))?;
        page.cautions
            .iter()
            .try_for_each(|line| plain(&self.styled(CAUTION, &format!("  ! {line}"))))?;
        let tried: Vec<_> = page.tried.iter().map(|row| row.text.clone()).collect();
        self.lines("Known already", &page.settled)?;
        self.lines("Said", &tried)?;
        page.contrary.iter().try_for_each(|row| self.contrary(row))?;
        self.red(page, true)?;
        plain("")?;
        plain(&self.styled(BOLD, &page.headline))?;
        let id = &page.fault.id;
        page.question.iter().try_for_each(|row| self.check(id, row))?;
        page.found.iter().try_for_each(|row| self.cause(id, row))?;
        if page.likely.len() > 1 {
            let likely = page.likely.iter();
            let likely = likely.map(|row| format!("{:>3} %  {}", row.chance_pct, row.text));
            self.lines("It may be", &likely.collect::<Vec<_>>())?;
        }
        if !page.expected_text.is_empty() {
            plain(&page.expected_text)?;
        }
        if page.fault.stage == FaultStage::Helper {
            plain("")?;
            plain(&page.account)?;
        }
        self.red(page, false)?;
        // The cards of a cause that was found stand there.
        let shown = page.found.iter().flat_map(|row| &row.cards);
        let shown: Vec<_> = shown.map(|link| &link.id).collect();
        let cards = page.cards.iter().filter(|link| !shown.contains(&&link.id));
        self.links("Card", "card", &cards.cloned().collect::<Vec<_>>())?;
        if !page.tried.is_empty() {
            let back = format!("Take the last answer back: stowfast fault {id} --undo");
            hint(&self.styled(FAINT, &back))?;
            hint(&self.styled(FAINT, &format!("Begin anew: stowfast fault {id} --again")))?;
        }
        plain(&self.styled(FAINT, &format!("({}; likelihoods: {})", page.source, page.likelihood)))
    }

    /// The alerts that show, or those that may.
    fn red(&self, page: &FaultPage, shows: bool) -> Result<()> {
        let what = if shows { "It shows red" } else { "It may show red" };
        let rows = page.shows_red.iter().filter(|row| row.shows == shows);
        let links = rows.map(|row| LinkRow { id: row.id.clone(), title: row.title.clone() });
        self.links(what, "alert", &links.collect::<Vec<_>>())
    }

    fn contrary(&self, row: &ContraryRow) -> Result<()> {
        plain("")?;
        plain(&self.styled(CAUTION, &row.text))?;
        row.look_again.iter().try_for_each(|line| plain(&format!("  – {line}")))
    }

    fn check(&self, id: &str, row: &CheckRow) -> Result<()> {
        let place = if row.zone_title.is_empty() { "anywhere" } else { &row.zone_title };
        plain(&format!(
            "  {} ({place}, {} s)",
            row.text,
            row.walk_s.saturating_add(row.hands_on_s)
        ))?;
        row.how.iter().try_for_each(|line| plain(&format!("      {line}")))?;
        row.tool_text.iter().try_for_each(|tool| plain(&format!("      Take {tool}.")))?;
        row.cautions
            .iter()
            .try_for_each(|line| plain(&self.styled(CAUTION, &format!("      ! {line}"))))?;
        row.answers.iter().try_for_each(|answer| {
            plain(&format!("    • {}", answer.text))?;
            let said = format!("        stowfast fault {id} {} {}", row.id, answer.id);
            hint(&self.styled(FAINT, &said))
        })
    }

    fn cause(&self, id: &str, row: &CauseRow) -> Result<()> {
        plain(&format!("  {}", row.text))?;
        self.lines("Do now", &row.remedy)?;
        row.helper_text.iter().try_for_each(|line| plain(&self.styled(BOLD, line)))?;
        self.links("Routine", "plan", row.routine.as_slice())?;
        for step in &row.steps {
            plain(&format!("  {} {}", kind(step.kind), step.text))?;
            plain(&self.styled(FAINT, &format!("      {}", step.id)))?;
        }
        self.links("Card", "card", &row.cards)?;
        row.answers.iter().try_for_each(|answer| {
            plain(&format!("    • {}", answer.text))?;
            let said = format!("        stowfast fault {id} {} {}", row.id, answer.id);
            hint(&self.styled(FAINT, &said))
        })
    }
}
