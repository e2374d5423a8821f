//! What stands at the head of a printed sheet, as the job says it.
//!
//! Start at [`Heading`].

use crate::job::{Job, PaperWord, Typed};
use crate::units::UnitSystem;

/// For whom, by whom and when a comparison is made.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Heading {
    /// For whom.
    pub customer: Option<String>,
    /// Phone of who prepared it.
    pub phone: Option<String>,
    /// The day, as `2026-03-15`.
    pub date: Option<String>,
    /// Where the design loads come from.
    pub load_source: Option<String>,
    /// What it is printed on, if the job says so.
    pub paper: Option<PaperSize>,
}

/// Sheets of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PaperSize {
    /// 8.5 by 11 inches.
    Letter,
    /// 210 by 297 mm.
    A4,
}

impl Heading {
    /// Of `job`.
    pub(super) fn of(job: &Job) -> Self {
        let text = |text: &Option<Typed<String>>| text.as_ref().map(|t| t.value.clone());
        Self {
            customer: text(&job.job.customer),
            phone: text(&job.job.phone),
            date: text(&job.job.date),
            load_source: text(&job.house.load_source),
            paper: job.job.paper.as_ref().map(|paper| match paper.value {
                PaperWord::Letter => PaperSize::Letter,
                PaperWord::A4 => PaperSize::A4,
            }),
        }
    }

    /// The paper that the job says; else Letter with US units and A4 with SI units.
    pub fn paper_or(&self, units: UnitSystem) -> PaperSize {
        self.paper.unwrap_or(match units {
            UnitSystem::Us => PaperSize::Letter,
            UnitSystem::Si => PaperSize::A4,
        })
    }
}
