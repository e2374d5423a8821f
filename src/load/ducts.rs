//! Ducts: what leaks and cools away between a machine and the rooms.
//!
//! Knows no machine, only its output and the air it moves. Start at [`Ducts::efficiency`]; what hours use
//! is [`DuctLine`].

use super::air::kw_per_m3_s_k;
use crate::units::{BTU_PER_KWH, METRES_PER_FOOT};

/// K·m²/W in one °F·ft²·h/Btu, in which insulation is sold in the United States.
pub const SI_PER_US_R: f64 = METRES_PER_FOOT * METRES_PER_FOOT / 1.8 * BTU_PER_KWH / 1000.0;

/// Supply and return ducts of one zone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ducts {
    /// Surface of the supply ducts, m².
    pub supply_area_m2: f64,
    /// Surface of the return ducts, m².
    pub return_area_m2: f64,
    /// Insulation of the supply ducts, K·m²/W; above zero.
    pub supply_r: f64,
    /// Insulation of the return ducts, K·m²/W; above zero.
    pub return_r: f64,
    /// Air moved while the machine runs, m³/s; above zero.
    pub airflow_m3_s: f64,
    /// Height above sea level, m, where the same volume weighs less; sea level's air without it.
    pub elevation_m: Option<f64>,
    /// Share of the air that leaks out of the supply ducts.
    pub supply_leak: f64,
    /// Share of the air that leaks into the return ducts.
    pub return_leak: f64,
}

/// What ducts keep of an output while air moves: `in the room = kept·output − lost`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DuctLine {
    /// Share of the output that is kept, above 0 to 1.
    pub kept: f64,
    /// Lost beside it for each kelvin that the rooms are warmer than it is around the ducts, kW/K.
    pub lost_kw_k: f64,
    /// Room temperature, °C.
    pub room_c: f64,
    /// Temperature around the ducts, °C; the outdoors' where there is none.
    pub ambient_c: Option<f64>,
    /// The ducts that it is of, where they are known.
    pub ducts: Option<Ducts>,
}

impl DuctLine {
    /// What is lost beside the share while air moves and it is `outdoor_c` °C outside, kW; not below 0.
    #[inline(always)]
    pub fn lost_kw(&self, outdoor_c: f64) -> f64 {
        (self.lost_kw_k * (self.room_c - self.ambient_c.unwrap_or(outdoor_c))).max(0.0)
    }
}

/// What a [`DuctLine`] is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DuctParts {
    /// What the air carries, kW/K.
    pub air_kw_k: f64,
    /// Share of a temperature difference that the walls of the supply ducts leave.
    pub supply: f64,
    /// The same of the return ducts.
    pub returned: f64,
    /// `(1 − return leak)·returned`.
    pub back: f64,
    /// `1 − supply leak`.
    pub tight: f64,
    /// `tight·supply`: share of the output that is kept.
    pub kept: f64,
    /// `air·(tight·supply·(1 − back) + tight·(1 − supply))`: lost beside it, kW/K.
    pub lost_kw_k: f64,
}

impl Ducts {
    /// Share of a machine's output that reaches the rooms while it runs.
    ///
    /// `DE = aS·BS − aS·BS·(1 − aR·BR)·ΔT/ΔTe − aS·(1 − BS)·ΔT/ΔTe`, with `B = exp(−A/(R·c·V))`, `a` the
    /// share of air that does not leak, ΔT room less ambient and ΔTe the rise at the machine: the less
    /// output, the more is lost. `output_kw` is above zero; below zero of the form it stays 0. Source:
    /// the delivery effectiveness of ANSI/ASHRAE Standard 152, with one ambient for both ducts.
    ///
    /// ```
    /// use winterledger::load::ducts::{Ducts, SI_PER_US_R};
    /// use winterledger::units::{Airflow, Area, Quantity, btu_to_kwh, fahrenheit_to_celsius};
    /// let area = |text| Area::parse(text).unwrap().base();
    /// let ducts = Ducts {
    ///     supply_area_m2: area("270 ft2"), return_area_m2: area("70 ft2"),
    ///     supply_r: 6.0 * SI_PER_US_R, return_r: 6.0 * SI_PER_US_R,
    ///     airflow_m3_s: Airflow::parse("1000 cfm").unwrap().base(), elevation_m: None,
    ///     supply_leak: 0.10, return_leak: 0.05,
    /// };
    /// let at = |btu_h| {
    ///     ducts.efficiency(btu_to_kwh(btu_h), fahrenheit_to_celsius(70.0), fahrenheit_to_celsius(20.0))
    /// };
    /// assert!((at(60_000.0) - 0.7834).abs() < 5e-5); // hand-worked
    /// assert!((at(30_000.0) - 0.7036).abs() < 5e-5); // low output loses more
    /// ```
    pub fn efficiency(&self, output_kw: f64, room_c: f64, ambient_c: f64) -> f64 {
        let (kept, lost_kw_k) = self.line();
        (kept - lost_kw_k * (room_c - ambient_c) / output_kw).max(0.0)
    }

    /// The share of its output that reaches the rooms of a machine that covers `need_kw` in the rooms.
    ///
    /// The form is a line in the output, `delivered = kept·output − lost`, so the output that delivers
    /// the need is `(need + lost)/kept`.
    pub fn efficiency_at_need(&self, need_kw: f64, room_c: f64, ambient_c: f64) -> f64 {
        let (kept, lost_kw_k) = self.line();
        let lost = (lost_kw_k * (room_c - ambient_c)).max(0.0);
        // Nothing needed is nothing lost.
        if need_kw > 0.0 { need_kw * kept / (need_kw + lost) } else { kept }
    }

    /// The same for rooms of `room_c` °C, as a line in the output.
    pub fn line_for(&self, room_c: f64, ambient_c: Option<f64>) -> DuctLine {
        let (kept, lost_kw_k) = self.line();
        DuctLine { kept, lost_kw_k, room_c, ambient_c, ducts: Some(*self) }
    }

    /// Share of the output that is kept, and what is lost beside it, kW for each kelvin of room over
    /// ambient.
    fn line(&self) -> (f64, f64) {
        let parts = self.parts();
        (parts.kept, parts.lost_kw_k)
    }

    /// The line and what it is made of.
    pub fn parts(&self) -> DuctParts {
        let air = kw_per_m3_s_k(self.elevation_m) * self.airflow_m3_s;
        let left = |area: f64, r: f64| (-area / (1000.0 * r * air)).exp();
        let supply = left(self.supply_area_m2, self.supply_r);
        let returned = left(self.return_area_m2, self.return_r);
        let back = (1.0 - self.return_leak) * returned;
        let tight = 1.0 - self.supply_leak;
        let lost = tight * supply * (1.0 - back) + tight * (1.0 - supply);
        DuctParts {
            air_kw_k: air,
            supply,
            returned,
            back,
            tight,
            kept: tight * supply,
            lost_kw_k: lost * air,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::CUBIC_METRES_PER_SECOND_PER_CFM;

    fn tight() -> Ducts {
        let foot = METRES_PER_FOOT * METRES_PER_FOOT;
        Ducts {
            supply_area_m2: 270.0 * foot,
            return_area_m2: 70.0 * foot,
            supply_r: 6.0 * SI_PER_US_R,
            return_r: 6.0 * SI_PER_US_R,
            airflow_m3_s: 1000.0 * CUBIC_METRES_PER_SECOND_PER_CFM,
            elevation_m: None,
            supply_leak: 0.0,
            return_leak: 0.0,
        }
    }

    const ROOM_C: f64 = 38.0 / 1.8;
    const AMBIENT_C: f64 = -12.0 / 1.8;

    #[test]
    fn without_leaks_only_the_walls_of_the_ducts_lose() {
        // Hand-worked: 70 °F room, 20 °F around the ducts, 60 and 30 kBtu/h: 0.9132 and 0.8672.
        let at = |btu_h: f64| tight().efficiency(btu_h / BTU_PER_KWH, ROOM_C, AMBIENT_C);
        assert!((at(60_000.0) - 0.9132).abs() < 5e-5, "{}", at(60_000.0));
        assert!((at(30_000.0) - 0.8672).abs() < 5e-5, "{}", at(30_000.0));
    }

    #[test]
    fn thin_air_carries_less_and_leaks_less() {
        // Hand-worked at 5,000 ft, where 1.08 becomes 0.8986 Btu/h for each cfm and °F, so 898.6 Btu/h·°F: BS =
        // exp(−270/(6·898.6)) = 0.95116, BR = exp(−70/(6·898.6)) = 0.98710, rises 66.77 and 33.39 °F. Tight:
        // 0.95116·(1 − 0.01290·50/66.77) − 0.04884·50/66.77 = 0.9054, at half the output 0.8596; leaking
        // 0.9·0.95116·(1 − 0.06225·50/66.77) − 0.9·0.04884·50/66.77 = 0.7832 and 0.7104.
        let at = |ducts: Ducts, btu_h: f64| ducts.efficiency(btu_h / BTU_PER_KWH, ROOM_C, AMBIENT_C);
        let high = Ducts { elevation_m: Some(5000.0 * METRES_PER_FOOT), ..tight() };
        let leaking = Ducts { supply_leak: 0.10, return_leak: 0.05, ..high };
        for (ducts, output, expected) in
            [(high, 60e3, 0.9054), (high, 30e3, 0.8596), (leaking, 60e3, 0.7832), (leaking, 30e3, 0.7104)]
        {
            assert!((at(ducts, output) - expected).abs() < 1e-4, "{}", at(ducts, output));
        }
    }

    #[test]
    fn the_efficiency_at_a_need_is_that_at_the_output_which_covers_it() {
        let ducts = Ducts { supply_leak: 0.1, return_leak: 0.05, ..tight() };
        let output = 30_000.0 / BTU_PER_KWH;
        let efficiency = ducts.efficiency(output, ROOM_C, AMBIENT_C);
        let found = ducts.efficiency_at_need(output * efficiency, ROOM_C, AMBIENT_C);
        assert!((found - efficiency).abs() < 1e-12, "{found}");
    }

    #[test]
    fn ducts_in_warm_rooms_lose_what_leaks_alone() {
        let ducts = Ducts { supply_leak: 0.1, ..tight() };
        let kept = ducts.efficiency(5.0, ROOM_C, ROOM_C);
        // Hand-worked: 0.9·exp(−270/6480).
        assert!((kept - 0.9 * (-270.0_f64 / 6480.0).exp()).abs() < 1e-12);
    }
}
