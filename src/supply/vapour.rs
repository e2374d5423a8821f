//! How much vapour a propane tank can give in the cold: the liquid boils by the heat of the air that
//! reaches it through the wetted steel.
//!
//! Knows no day and no house. Start at [`boil_off_kw`].

use crate::units::{METRES_PER_FOOT, btu_to_kwh, celsius_to_fahrenheit};

/// Share of the tank that is full, and the factor K that goes with it, from low to high.
///
/// Source: the tank maker's rule `Btu/h = D·L·K·f` with D and L in inches; from memory, held against
/// one published figure in the tests.
const WETTED: [(f64, f64); 6] =
    [(0.10, 45.0), (0.20, 60.0), (0.30, 70.0), (0.40, 80.0), (0.50, 90.0), (0.60, 100.0)];
/// Colder than this nothing boils off in an above-ground tank, °F: the line of factors ends there.
const NONE_BELOW_F: f64 = -20.0;
/// The rule's table ends here, °F; its factor is held in anything warmer.
const TABLE_ENDS_F: f64 = 20.0;

/// A horizontal tank's outer measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shape {
    /// Outer diameter, m.
    pub diameter_m: f64,
    /// Overall length, m.
    pub length_m: f64,
}

impl Shape {
    /// From inches, as tanks are listed.
    pub fn of_inches(diameter: f64, length: f64) -> Self {
        let inch = METRES_PER_FOOT / 12.0;
        Self { diameter_m: diameter * inch, length_m: length * inch }
    }

    /// The usual shape of a tank of so many US gallons of water: that of the nearest listed size,
    /// larger or smaller in all directions alike.
    ///
    /// From memory: listed sizes of 120, 250, 320, 500 and 1,000 gallons.
    pub fn usual(water_gallons: f64) -> Self {
        const LISTED: [(f64, f64, f64); 5] = [
            (120.0, 24.0, 66.0),
            (250.0, 30.0, 94.0),
            (320.0, 30.0, 115.0),
            (500.0, 37.0, 119.0),
            (1000.0, 41.0, 192.0),
        ];
        let away = |size: f64| (size / water_gallons).ln().abs();
        let near = LISTED.into_iter().min_by(|a, b| away(a.0).total_cmp(&away(b.0)));
        let (size, diameter, length) = near.unwrap_or((500.0, 37.0, 119.0));
        let grown = (water_gallons / size).cbrt();
        Self::of_inches(diameter * grown, length * grown)
    }
}

/// The heat content of the vapour that boils off steadily, kW (HHV), in an above-ground tank filled to
/// `share` of its water capacity when it is `outdoor_c` outside.
///
/// Linear between the rule's points; below 10 % full the factor of 10 % holds, above 60 % that of
/// 60 %; nothing at −20 °F and colder, the value at 20 °F in anything warmer.
///
/// ```
/// use winterledger::supply::vapour::{Shape, boil_off_kw};
/// let tank = Shape::of_inches(41.0, 192.0);
/// let kw = boil_off_kw(tank, 0.30, winterledger::units::fahrenheit_to_celsius(-10.0));
/// assert!((winterledger::units::kwh_to_btu(kw) - 275_520.0).abs() < 1e-6);
/// ```
pub fn boil_off_kw(shape: Shape, share: f64, outdoor_c: f64) -> f64 {
    let outdoor_f = celsius_to_fahrenheit(outdoor_c).min(TABLE_ENDS_F);
    let cold = ((outdoor_f - NONE_BELOW_F) / 20.0).max(0.0);
    let inch = METRES_PER_FOOT / 12.0;
    btu_to_kwh(shape.diameter_m / inch * (shape.length_m / inch) * wetted(share) * cold)
}

fn wetted(share: f64) -> f64 {
    let mut below = WETTED[0];
    for above in WETTED {
        if share <= above.0 {
            let run = (above.0 - below.0).max(f64::MIN_POSITIVE);
            return below.1 + (above.1 - below.1) * ((share - below.0) / run).clamp(0.0, 1.0);
        }
        below = above;
    }
    below.1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{fahrenheit_to_celsius, kwh_to_btu};

    fn btu(inches: (f64, f64), share: f64, fahrenheit: f64) -> f64 {
        let shape = Shape::of_inches(inches.0, inches.1);
        kwh_to_btu(boil_off_kw(shape, share, fahrenheit_to_celsius(fahrenheit)))
    }

    #[test]
    fn a_tank_boils_off_what_the_rule_says() {
        // Published: 276,500 Btu/h for 1,000 gallons at 30 % and −10 °F; the rule gives 0.35 % less.
        assert!((btu((41.0, 192.0), 0.30, -10.0) / 276_500.0 - 1.0).abs() < 0.004);
        // Hand-worked from the rule: 37·119·70·0.25, ·0.5, ·1.
        for (fahrenheit, expected) in [(-15.0, 77_052.5), (-10.0, 154_105.0), (0.0, 308_210.0)] {
            assert!((btu((37.0, 119.0), 0.30, fahrenheit) - expected).abs() < 1e-6, "{fahrenheit}");
        }
    }

    #[test]
    fn nothing_boils_off_at_minus_twenty_and_below() {
        assert!(btu((37.0, 119.0), 0.8, -20.0).abs() < 1e-6);
        assert_eq!(btu((37.0, 119.0), 0.8, -30.0), 0.0);
        assert!(btu((37.0, 119.0), 0.8, -19.0) > 0.0);
    }

    #[test]
    fn the_factors_are_held_beyond_the_table() {
        // Hand-worked: K 45 at 5 %, 75 at 35 %, 100 at 80 %; f 2 at 60 °F as at 20 °F.
        let whole = 37.0 * 119.0 * 2.0;
        for (share, factor) in [(0.05, 45.0), (0.10, 45.0), (0.35, 75.0), (0.60, 100.0), (0.80, 100.0)] {
            assert!((btu((37.0, 119.0), share, 60.0) - whole * factor).abs() < 1e-6, "{share}");
        }
    }
}
