//! What the capacity chart shows of one zone, as plain values, and whether they can be shown.
//!
//! Must not know how it is drawn. Start at [`CapacityPanel`].

use super::ChartError;

/// One zone of the house.
#[derive(Debug, Clone, PartialEq)]
pub struct CapacityPanel {
    /// The zone's name.
    pub zone: String,
    /// Outdoor temperature and the heat the zone then needs, at two points or more, colder first.
    pub load: Vec<(f64, f64)>,
    /// The machines that can heat the zone.
    pub machines: Vec<MachineCurve>,
    /// Where a machine's greatest output just meets the load.
    pub balances: Vec<Balance>,
    /// Temperatures worth a line of their own.
    pub marks: Vec<Mark>,
    /// Middle of each temperature bin and its hours a year, colder first, bins equally wide. Bins warmer
    /// than every line above are left out, since no heat is needed there; colder ones widen the axis.
    pub hours: Vec<(f64, f64)>,
}

/// What one machine can give.
#[derive(Debug, Clone, PartialEq)]
pub struct MachineCurve {
    /// The machine's name, written at its line.
    pub name: String,
    /// The place of the first option that has it, whose colour it wears.
    pub option: usize,
    /// Outdoor temperature and greatest output, colder first. The line ends where the points end; where
    /// the load's line goes on colder, the machine is shown as off there.
    pub greatest: Vec<(f64, f64)>,
    /// Outdoor temperature and least steady output, where the machine can turn down.
    pub least: Option<Vec<(f64, f64)>>,
    /// Which options have it, told below its name; empty where there is nothing to tell.
    pub options: String,
    /// Whether the line ends at a cut-out, where the machine is off already; else it is on there and off
    /// below.
    pub off_at_end: bool,
    /// Outdoor temperature above which it is on again once it was off, where that is warmer than the line's
    /// end: the line is dashed between the two.
    pub on_again: Option<f64>,
}

/// A balance point.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// The name of the machine, as in [`MachineCurve::name`].
    pub machine: String,
    /// Outdoor temperature; colder than this the machine alone falls short.
    pub temperature: f64,
    /// The load there, which is also the output.
    pub load: f64,
}

/// An outdoor temperature with a name.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Its name without the figure, which the chart adds: `design`, `coldest planned`.
    pub label: String,
    /// Outdoor temperature.
    pub temperature: f64,
}

impl CapacityPanel {
    /// The width of a bin of hours: the least distance between two of them.
    pub(super) fn bin(&self) -> Option<f64> {
        let middles = self.hours.iter().map(|bin| bin.0);
        let gaps = middles.clone().skip(1).zip(middles).map(|(warmer, colder)| warmer - colder);
        gaps.reduce(f64::min)
    }

    /// The cold edge of the coldest bin that has any hours.
    pub(super) fn coldest(&self) -> Option<f64> {
        let half = self.bin().unwrap_or(0.0) / 2.0;
        self.hours.iter().find(|bin| bin.1 > 0.0).map(|bin| bin.0 - half)
    }

    /// Every value finite, nothing below zero, temperatures rising.
    pub(super) fn checked(&self) -> Result<(), ChartError> {
        rising("load", &self.load)?;
        rising("hours", &self.hours)?;
        for machine in &self.machines {
            if machine.greatest.is_empty() {
                return Err(ChartError::Empty);
            }
            rising(&machine.name, &machine.greatest)?;
            rising(&machine.name, machine.least.as_deref().unwrap_or_default())?;
            machine.on_again.iter().try_for_each(|t| sound(&machine.name, *t, 0.0))?;
        }
        let balances = self.balances.iter().map(|b| ("balance", b.temperature, b.load));
        let marks = self.marks.iter().map(|m| (m.label.as_str(), m.temperature, 0.0));
        balances.chain(marks).try_for_each(|(name, t, value)| sound(name, t, value))
    }
}

fn sound(name: &str, temperature: f64, value: f64) -> Result<(), ChartError> {
    // Anything above the bounds is a slip, and its digits would not fit beside the axis.
    if temperature.abs() <= 10_000.0 && (0.0..=1e7).contains(&value) {
        return Ok(());
    }
    Err(ChartError::BadValue(format!("{value} at {temperature} for {name}")))
}

fn rising(name: &str, line: &[(f64, f64)]) -> Result<(), ChartError> {
    line.iter().try_for_each(|(t, value)| sound(name, *t, *value))?;
    if line.windows(2).any(|pair| matches!(pair, [a, b] if a.0 >= b.0)) {
        return Err(ChartError::BadValue(format!("temperatures of {name} that do not rise")));
    }
    Ok(())
}
