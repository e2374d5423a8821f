//! What is laid on the heaters of a zone before an hour and parted from its outcome after it: a furnace
//! that tempers the air, and ducts by output.
//!
//! Start at [`Folds::lay`].

use super::kernel::{Heater, MOST_HEATERS, ZoneHour, ZoneOutcome, hour};
use super::tempering::{Folded, Tempering};
use super::through::{Through, fold_all, unfold};
use super::working::{Step, work_through};
use crate::load::DuctLine;

/// What was laid on one zone's heaters in one hour.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Folds {
    through: Option<[Through; MOST_HEATERS]>,
    tempered: Option<Folded>,
}

impl Folds {
    /// Lays on `heaters` a furnace's tempering (and what its fuel is worth in electricity, what ducts keep of
    /// it, whether the first heater is locked out), then the ducts at an outdoor temperature.
    pub(super) fn lay(
        heaters: &mut [Heater<f64>],
        tempering: Option<(Tempering, (f64, f64), bool)>,
        ducts: Option<(&DuctLine, f64)>,
        is_ducted: impl Fn(usize) -> bool,
        takes_turns: bool,
    ) -> Self {
        let tempered = tempering.and_then(|(tempering, worths, locked_out)| {
            // Two that take turns never run at once: the furnace's own turn is time in which nothing defrosts.
            let apart = locked_out || (takes_turns && tempering.place == 1);
            tempering.fold(heaters, worths, !apart)
        });
        let through = ducts.map(|line| fold_all(heaters, line, is_ducted, takes_turns));
        Self { through, tempered }
    }

    /// What the ducts do to the first heater.
    pub(super) fn first(&self) -> Through {
        self.through.map_or(Through::NONE, |[first, ..]| first)
    }

    /// Gives each machine what is its own.
    pub(super) fn unfold(&self, outcome: &mut ZoneOutcome<f64>) {
        if let Some(through) = &self.through {
            unfold(outcome, through);
        }
        if let Some(tempered) = self.tempered {
            tempered.unfold(outcome);
        }
    }

    /// The hour, each machine with its own.
    pub(super) fn hour(&self, zone: &ZoneHour<'_, f64>) -> ZoneOutcome<f64> {
        let mut outcome = hour(zone);
        self.unfold(&mut outcome);
        outcome
    }

    /// The same with its steps.
    pub(super) fn work(&self, zone: &ZoneHour<'_, f64>) -> (Vec<Step>, ZoneOutcome<f64>) {
        let through = self.through.unwrap_or([Through::NONE; MOST_HEATERS]);
        let (mut steps, mut outcome) = work_through(zone, &through);
        if let Some(tempered) = self.tempered {
            tempered.tell(&mut steps, outcome.heaters[0].running);
            tempered.unfold(&mut outcome);
        }
        (steps, outcome)
    }
}
