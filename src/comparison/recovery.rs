//! Whether an option that is not always warm lacks heat, or only takes long to recover from a set-back.
//!
//! It is judged by the same year without any set-back; knows no price. Start at [`Warmth`].

use crate::load::Zone;

/// How an option keeps the house through the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Warmth {
    /// No hour is too cold.
    Kept,
    /// Hours are too cold, but none is in the same year without set-backs: the heat is there, it is the
    /// recovery that takes longer than it is given.
    SlowToRecover,
    /// Its fuel lasts with its set-backs, and hours after them are too cold; in the same year without them a
    /// store runs dry.
    DryWithoutSetBacks,
    /// Heat is lacking.
    GoesCold,
}

/// The same year without any set-back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WithoutSetBacks {
    /// Hours in which a zone is not kept warm; the worst zone's.
    pub hours_not_kept_warm: usize,
    /// How often a store of the option ran dry then.
    pub run_outs: usize,
    /// What the option costs then, in the job's currency.
    pub yearly_cost: f64,
}

impl Warmth {
    /// That of an option by its hours not kept warm and how often its stores ran dry, with its set-backs, and by
    /// the same year without them.
    pub fn of(hours_not_kept_warm: usize, run_outs: usize, without: Option<&WithoutSetBacks>) -> Self {
        match (hours_not_kept_warm, without) {
            (0, _) => Self::Kept,
            (_, Some(without)) if without.hours_not_kept_warm == 0 => Self::SlowToRecover,
            (_, Some(without)) if run_outs == 0 && without.run_outs > 0 => Self::DryWithoutSetBacks,
            _ => Self::GoesCold,
        }
    }

    /// Whether heat lacks, with the set-backs or without them.
    pub fn lacks_heat(self) -> bool {
        matches!(self, Self::DryWithoutSetBacks | Self::GoesCold)
    }
}

/// The zones held at the highest of their set points all year; nothing where they are so already.
pub(super) fn without_set_backs(zones: &[Zone]) -> Option<Vec<Zone>> {
    let steady = |zone: &Zone| Zone { heating: zone.heating.without_set_backs(), ..zone.clone() };
    zones.iter().any(|zone| !zone.heating.set_backs.is_empty()).then(|| zones.iter().map(steady).collect())
}
