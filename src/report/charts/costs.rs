//! What a cost chart shows of one option or line, as plain values, and whether it can be shown.
//!
//! Must not know how it is drawn. Start at [`CostBar`].

use super::ChartError;

/// The largest amount whose digits still leave room for bars; also keeps infinity out.
const MOST: f64 = 1e12;

/// What one option costs in a year, or one line of a bill.
#[derive(Debug, Clone, PartialEq)]
pub struct CostBar {
    /// The option's name, as the job gives it, or the line's.
    pub name: String,
    /// End use and amount, in stacking order; credits are below zero. The end uses this crate knows by name
    /// (space heating, backup heat, cooling, standby, fixed charge, ...) have colours of their own.
    pub segments: Vec<(String, f64)>,
    /// What the parts add up to, as other tables print it; may differ from their sum by rounding,
    /// half a currency unit for each part and one half more.
    pub total: f64,
    /// Words for an option that does not keep the house warm: `goes cold: 212 h`.
    pub warning: Option<String>,
}

impl CostBar {
    /// Amounts in range, and parts that add up to the total.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        let amounts = self.segments.iter().map(|(name, amount)| (name.as_str(), *amount));
        for (name, amount) in amounts.chain([("total", self.total)]) {
            if !(-MOST..=MOST).contains(&amount) {
                return Err(ChartError::BadValue(format!("{amount} for {name} of “{}”", self.name)));
            }
        }
        let rounding = 0.5 * (self.segments.len() as f64 + 1.0) + 1e-9 * self.total.abs();
        if (self.sum() - self.total).abs() > rounding {
            return Err(ChartError::PartsDiffer(self.name.clone()));
        }
        Ok(())
    }

    /// How far the bar reaches to the left and to the right of zero.
    pub(super) fn reach(&self) -> (f64, f64) {
        let amounts = self.segments.iter().map(|(_, amount)| amount);
        amounts.fold((0.0, 0.0), |(left, right), a| (left + a.min(0.0), right + a.max(0.0)))
    }

    /// What the parts add up to.
    fn sum(&self) -> f64 {
        self.segments.iter().map(|(_, amount)| amount).sum()
    }

    /// The parts that are not nothing.
    pub(super) fn shown(&self) -> impl Iterator<Item = &(String, f64)> {
        self.segments.iter().filter(|(_, amount)| *amount != 0.0)
    }
}
