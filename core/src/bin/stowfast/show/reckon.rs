//! Questions that are answered with numbers.

use stowfast_core::Result;
use stowfast_core::engine::{
    Choice, FigureRow, Mark, Reckoning, ReckoningLine, ReckoningPart, ReckoningRow,
};

use super::ahead::tell;
use super::{BOLD, CAUTION, FAINT, Out, hint, object, plain};

/// The choices of minutes from now, which a time of the clock may stand for.
pub(crate) const UNTIL: [&str; 2] = ["by", "in_min"];

impl Out {
    pub(crate) fn reckonings(&self, rows: &[ReckoningRow]) -> Result<()> {
        if self.json {
            return object("reckonings", &rows);
        }
        rows.iter().try_for_each(|row| {
            plain(&self.styled(BOLD, &row.title))?;
            plain(&format!("  {}", row.about))?;
            hint(&format!("  stowfast {}", row.id))
        })
    }

    pub(crate) fn reckoning(&self, page: &Reckoning) -> Result<()> {
        if self.json {
            return object("reckoning", page);
        }
        plain(&self.styled(BOLD, &page.title))?;
        plain(&marked(page.mark, &page.verdict_text))?;
        if let Some((text, at)) = page.by_text.as_ref().zip(page.by_utc_ms) {
            let at = self.zone.local(at).format("%F %R (UTC%:z)");
            plain(&self.styled(BOLD, &format!("{text}: {at}")))?;
        }
        page.cautions
            .iter()
            .try_for_each(|said| plain(&self.styled(CAUTION, &format!("! {said}"))))?;
        page.parts.iter().try_for_each(|part| self.reckoning_part(part))?;
        self.asked(page)?;
        plain("")?;
        page.about.iter().try_for_each(|said| plain(&self.styled(FAINT, said)))
    }

    fn reckoning_part(&self, part: &ReckoningPart) -> Result<()> {
        plain("")?;
        plain(&self.styled(BOLD, &part.title))?;
        part.lines.iter().try_for_each(reckoning_line)?;
        part.chart.iter().try_for_each(|chart| plain(&format!("  {}", chart.told)))
    }

    /// With what it was asked, what else it rests on, and what is missing.
    fn asked(&self, page: &Reckoning) -> Result<()> {
        plain("")?;
        plain(&self.styled(BOLD, "Asked with"))?;
        page.choices.iter().try_for_each(choice)?;
        page.asks.iter().try_for_each(ask)?;
        let gauge = |one: &stowfast_core::engine::ReckoningGauge| {
            hint(&format!("  {}: stowfast read {} VALUE", one.title, one.id))
        };
        page.gauges.iter().try_for_each(gauge)?;
        page.missing.iter().try_for_each(|said| plain(&format!("  ? {said}")))
    }
}

fn reckoning_line(line: &ReckoningLine) -> Result<()> {
    plain(&format!("  {}", marked(line.mark, &format!("{}: {}", line.title, line.text))))?;
    line.detail.iter().try_for_each(|said| plain(&format!("    {said}")))
}

fn choice(choice: &Choice) -> Result<()> {
    let Choice { id, title, .. } = choice;
    if let Some(number) = &choice.number {
        let value = number.value_text.as_deref().unwrap_or("not picked");
        let clock = if UNTIL.contains(&id.as_str()) { ", or a time as 18:00" } else { "" };
        let range = &number.range_text;
        return plain(&format!("  {title}: {value}. --{id} NUMBER, {range}{clock}"));
    }
    plain(&format!("  {title}: --{id} with"))?;
    choice.options.iter().try_for_each(|option| {
        let chosen = if option.chosen { "*" } else { " " };
        plain(&format!("   {chosen} {:12} {}", option.id, option.title))
    })
}

fn ask(row: &FigureRow) -> Result<()> {
    let value = row.value_text.as_deref().unwrap_or("not known");
    hint(&format!("  {}: {value}. {}", row.title, tell(row)))
}

/// With a sign of how it stands, so that it is told without colour.
fn marked(mark: Option<Mark>, said: &str) -> String {
    match mark {
        Some(Mark::Fine) => format!("+ {said}"),
        Some(Mark::Watch) => format!("~ {said}"),
        Some(Mark::Wrong) => format!("× {said}"),
        None => said.to_owned(),
    }
}
