//! Where a machine's figures come from: lines of the job, frost, thin air, a fan's warmth, a burner.
//!
//! Start at [`Words::row_origin`].

use super::words::Words;
use crate::equipment::map::{MapRow, Point};
use crate::equipment::origin::{Burner, RowOrigin, RowsFrom};
use crate::report::figures::grouped;
use crate::units::fahrenheit_to_celsius;

/// Where frost takes the most, and beyond which it takes nothing, °F.
const FROST_F: [f64; 3] = [17.0, 35.0, 47.0];

impl Words<'_> {
    /// Who gives the rows, where that is not told row by row.
    pub(super) fn rows_from(&self, from: &RowsFrom) -> Option<String> {
        match from {
            RowsFrom::Typed(_) => None,
            RowsFrom::Table(name) => Some(format!("  Its rows are those of the built-in table {name}.")),
            RowsFrom::Nameplate { line, multiplier } => Some(format!(
                "  Its rows are derived from its nameplate (line {line} of the job): the label\u{2019}s capacities, and \
                 the inputs of a typical machine times {}, so that its rating is the label\u{2019}s.",
                grouped(*multiplier, 4)
            )),
        }
    }

    /// How a row came about, where it is not as it was given.
    pub(super) fn row_origin(&self, row: &MapRow, from: &RowOrigin) -> Vec<String> {
        let mut lines = Vec::new();
        if let Some((low, high, share)) = from.put_in {
            lines.push(format!(
                "    nobody gives a row there; on the line between those at {} and {}, {} of the way, frost left out:",
                self.t(low.outdoor_c),
                self.t(high.outdoor_c),
                grouped(share, 4)
            ));
            let way = (&low.greatest, &high.greatest, share);
            lines.push(format!("    greatest {}", self.on_the_way(way, &from.given.greatest)));
        }
        if let Some(frost) = from.frost {
            lines.push(self.frost(row.outdoor_c, (frost.depth, frost.capacity, frost.power)));
        }
        if from.frost.is_none() && from.altitude == 1.0 && from.fan_kw == 0.0 {
            return lines;
        }
        lines.extend(self.changed(&row.greatest, &from.given.greatest, from));
        lines
    }

    fn on_the_way(&self, (low, high, share): (&Point, &Point, f64), is: &Point) -> String {
        let way = grouped(share, 4);
        format!(
            "{} + {way} \u{d7} ({} \u{2212} {}) = {}, for {} kW + {way} \u{d7} ({} kW \u{2212} {} kW) = {} kW",
            self.q(low.capacity_kw),
            self.q(high.capacity_kw),
            self.q(low.capacity_kw),
            self.q(is.capacity_kw),
            grouped(low.power_kw, 4),
            grouped(high.power_kw, 4),
            grouped(low.power_kw, 4),
            grouped(is.power_kw, 4)
        )
    }

    /// What frost leaves at a row.
    fn frost(&self, row_c: f64, (depth, capacity, power): (f64, f64, f64)) -> String {
        let [cold, peak, warm] = FROST_F.map(|f| self.t(fahrenheit_to_celsius(f)));
        let side = if row_c <= fahrenheit_to_celsius(FROST_F[1]) { &cold } else { &warm };
        // A row at 2 °C stands for one at 35 °F; a map colder than its rows keeps the coldest row's share.
        let own = (row_c - fahrenheit_to_celsius(FROST_F[1])).abs() < 1.0 && depth == 1.0;
        let depth_is = grouped(depth, 4);
        let how_deep = match own {
            true => format!("at {peak}, where it takes the most"),
            false => format!("nothing at {side} and beyond, the most at {peak}, here {depth_is} of that"),
        };
        format!(
            "    steady tests, so frost is charged for ({how_deep}): capacity 1 \u{2212} 0.10 \u{d7} {depth_is} = {}, power \
             1 \u{2212} 0.015 \u{d7} {depth_is} = {}",
            grouped(capacity, 4),
            grouped(power, 5)
        )
    }

    /// The greatest output as given and as it runs.
    fn changed(&self, is: &Point, given: &Point, from: &RowOrigin) -> Option<String> {
        let mut capacity = self.q(given.capacity_kw);
        let mut power = String::new();
        if let Some(frost) = from.frost {
            capacity = format!("{capacity} \u{d7} {}", grouped(frost.capacity, 4));
            power = format!(
                ", power {} kW \u{d7} {} = {} kW",
                grouped(given.power_kw, 4),
                grouped(frost.power, 5),
                grouped(is.power_kw, 4)
            );
        }
        let mut why = Vec::new();
        if from.altitude != 1.0 {
            capacity = format!("{capacity} \u{d7} {}", grouped(from.altitude, 4));
            why.push(format!("{} for thin air", grouped(from.altitude, 4)));
        }
        if from.fan_kw > 0.0 {
            capacity = format!("{capacity} + {}", self.q(from.fan_kw));
            why.push(format!("{} of the fan\u{2019}s warmth", self.q(from.fan_kw)));
        }
        let why = if why.is_empty() { String::new() } else { format!(" ({})", why.join(", ")) };
        Some(format!("    greatest as given {capacity} = {}{why}{power}", self.q(is.capacity_kw)))
    }

    /// A burner's full output.
    pub(super) fn burner(&self, burner: &Burner) -> String {
        let mut sum = self.q(burner.input_kw);
        let mut why = format!("its input, line {} of the job", burner.line);
        if burner.altitude != 1.0 {
            sum = format!("{sum} \u{d7} {}", grouped(burner.altitude, 4));
            why += ", less for thin air";
        }
        sum = format!("{sum} \u{d7} {}", grouped(burner.efficiency, 4));
        why += ", times its efficiency";
        if burner.side_kw > 0.0 {
            sum = format!("{sum} + {}", self.q(burner.side_kw));
            why += ", and the warmth of its blower, pump or motor";
        }
        format!("  At full fire it gives {sum} = {} ({why}).", self.q(burner.full_kw()))
    }
}
