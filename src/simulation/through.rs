//! Ducts that lose more of a low output than of a high one, folded into what a machine can do in an
//! hour, so that the kernel sees a machine which stands in the room.
//!
//! While air moves, `in the room = kept·output − lost`. A machine that cycles at its least output moves
//! air for its share of the hour alone. So what reaches the room is a line from nothing to the least
//! output and a steeper one above it, and a machine's row goes over into another row. Start at
//! [`Through::fold`].

use super::kernel::{Heater, MOST_HEATERS, ZoneOutcome};
use crate::equipment::output::MachineHour;
use crate::load::DuctLine;

/// What the ducts do to one heater in one hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Through {
    /// Share of the output that is kept.
    pub kept: f64,
    /// Lost beside it while air moves, kW.
    pub lost_kw: f64,
}

/// Where running all the hour would bring less than this share into the rooms, a machine is taken to
/// run harder for a shorter time; where even its greatest output would, that much is taken to arrive.
/// A judgement: the form was not made for so little heat in so much air.
pub const LEAST_KEPT: f64 = 0.3;

impl Through {
    /// No ducts, or ducts of one figure that the kernel multiplies by.
    pub const NONE: Self = Self { kept: 1.0, lost_kw: 0.0 };

    /// Folds the ducts into `heater`; gives what they do to it, and so to what it will give.
    ///
    /// ```
    /// use winterledger::equipment::output::MachineHour;
    /// use winterledger::simulation::kernel::Heater;
    /// use winterledger::simulation::through::Through;
    /// let machine = MachineHour { least: 4.0, rated: 8.0, greatest: 8.0, power_least: 1.0,
    ///     slope_low: 0.5, slope_high: 0.0, side: 0.1, pilot: 0.0 };
    /// let mut heater = Heater { machine, ..Heater::OFF };
    /// let ducts = Through { kept: 0.8, lost_kw: 1.0 }.fold(&mut heater);
    /// // Hand-worked: 0.8·4 − 1 and 0.8·8 − 1 kW arrive; at 8 kW 1 + 0.5·(8 − 4) are drawn.
    /// assert!((heater.machine.least - 2.2).abs() < 1e-12 && (heater.machine.greatest - 5.4).abs() < 1e-12);
    /// assert!((heater.machine.run(0.0, 5.4).draw - 3.0).abs() < 1e-12);
    /// // Half of the least: half the hour at 4 kW.
    /// let half = heater.machine.run(0.0, 1.1);
    /// assert!((ducts.at_machine_kwh(half.heat, half.running) - 2.0).abs() < 1e-12);
    /// ```
    pub fn fold(self, heater: &mut Heater<f64>) -> Self {
        let machine = &mut heater.machine;
        (heater.ducts, heater.before_ducts) = (1.0, 1.0);
        if machine.greatest <= 0.0 {
            return self;
        }
        let most_lost = (self.kept - LEAST_KEPT).max(0.0);
        let of = Self { kept: self.kept, lost_kw: self.lost_kw.min(most_lost * machine.greatest) };
        if of.lost_kw > most_lost * machine.least {
            raise_least(machine, of.lost_kw / most_lost);
        }
        let in_room = |kw: f64| of.kept * kw - of.lost_kw;
        machine.greatest = if machine.greatest < machine.least {
            // Bound to less than its least output it cycles at that.
            machine.greatest / machine.least * in_room(machine.least)
        } else {
            in_room(machine.greatest)
        };
        machine.rated = in_room(machine.rated.max(machine.least));
        machine.least = in_room(machine.least);
        machine.slope_low /= of.kept;
        machine.slope_high /= of.kept;
        of
    }

    /// What a machine gave at its outlet, kWh, of which `in_room_kwh` arrived while it ran for `running`
    /// of the hour.
    pub fn at_machine_kwh(self, in_room_kwh: f64, running: f64) -> f64 {
        (in_room_kwh + self.lost_kw * running) / self.kept
    }
}

/// Makes `kw` the least output, where the machine would go lower.
fn raise_least(machine: &mut MachineHour<f64>, kw: f64) {
    let low = kw.min(machine.rated) - machine.least;
    let high = (kw - machine.rated).max(0.0);
    machine.power_least += machine.slope_low * low.max(0.0) + machine.slope_high * high;
    machine.least = kw;
}

/// As good as no fuel for an hour, kWh: what rounding leaves of a store.
const NO_FUEL_KWH: f64 = 1e-9;

/// Folds the ducts of one zone into its heaters, in order, when it is `outdoor_c` °C outside; `is_ducted`
/// tells of each place whether its heat goes through them, `takes_turns` whether the first two never
/// run at once.
///
/// A heater that only adds to one which already moves the air loses no more than its share.
pub fn fold_all(
    heaters: &mut [Heater<f64>],
    (line, outdoor_c): (&DuctLine, f64),
    is_ducted: impl Fn(usize) -> bool,
    takes_turns: bool,
) -> [Through; MOST_HEATERS] {
    let mut through = [Through::NONE; MOST_HEATERS];
    let mut air_moves = false;
    let ducted = heaters.iter_mut().zip(&mut through).enumerate().filter(|(place, _)| is_ducted(*place));
    for (place, (heater, through)) in ducted {
        let has_fuel = heater.fuel_most.is_none_or(|most| most > NO_FUEL_KWH);
        let runs = heater.machine.greatest > 0.0 && has_fuel;
        let alone = !air_moves || (takes_turns && place < 2);
        let lost_kw = if alone { line.lost_kw(outdoor_c) } else { 0.0 };
        *through = Through { kept: line.kept, lost_kw }.fold(heater);
        air_moves |= runs;
    }
    through
}

/// Turns what the heaters gave in the room into what they gave at the machines.
pub fn unfold(outcome: &mut ZoneOutcome<f64>, through: &[Through]) {
    for (output, through) in outcome.heaters.iter_mut().zip(through) {
        output.heat = through.at_machine_kwh(output.heat, output.running);
    }
}
