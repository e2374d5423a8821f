//! What holds a delivered fuel at the house: how much goes in, what of it can be used, and how fast.
//!
//! Amounts are kWh (HHV) of the fuel. Knows no day and no money. Start at [`Tank`].

use super::vapour::{Shape, boil_off_kw};

/// A store of a delivered fuel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tank {
    /// What would fill it to the brim, kWh: of a propane tank, its water capacity.
    pub capacity_kwh: f64,
    /// It is filled to this share of the capacity, 0 to 1.
    pub fill_limit: f64,
    /// This share of the capacity cannot be used.
    pub reserve: f64,
    /// Where it stands.
    pub placement: Placement,
    /// Its measures, if what it gives in the cold is limited by what boils off.
    pub shape: Option<Shape>,
}

/// Where a store stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Placement {
    /// In the open air.
    AboveGround,
    /// In the ground, which never gets as cold as the air.
    Buried,
    /// In the house or its cellar.
    Indoors,
}

impl Tank {
    /// What it holds when filled to its limit, kWh.
    pub fn full_kwh(&self) -> f64 {
        self.capacity_kwh * self.fill_limit
    }

    /// What cannot be used, kWh.
    pub fn reserve_kwh(&self) -> f64 {
        self.capacity_kwh * self.reserve
    }

    /// What can be used of a full one, kWh.
    pub fn usable_kwh(&self) -> f64 {
        self.full_kwh() - self.reserve_kwh()
    }

    /// A level as share of the capacity.
    pub fn share(&self, level_kwh: f64) -> f64 {
        level_kwh / self.capacity_kwh
    }

    /// The most it can give at a level and an outdoor temperature, kW; infinity where nothing limits it.
    ///
    /// A buried tank has the warmth of the ground, here as in air of 20 °F or more all year.
    pub fn greatest_kw(&self, level_kwh: f64, outdoor_c: f64) -> f64 {
        match (self.shape, self.placement) {
            (Some(shape), Placement::AboveGround) => boil_off_kw(shape, self.share(level_kwh), outdoor_c),
            (Some(shape), _) => boil_off_kw(shape, self.share(level_kwh), f64::INFINITY),
            (None, _) => f64::INFINITY,
        }
    }

    /// So many levels from the reserve to the fill limit, evenly apart, kWh; one of one is full.
    pub fn levels(&self, count: usize) -> Vec<f64> {
        let step = 1.0 / (count.max(2) - 1) as f64;
        (0..count).rev().map(|i| self.full_kwh() - self.usable_kwh() * step * i as f64).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_nominal_tank_holds_eighty_percent() {
        // NFPA 58's filling limit; nominal gallons and what they hold, here with 1 kWh a gallon.
        for (nominal, holds) in
            [(120.0, 96.0), (250.0, 200.0), (320.0, 256.0), (500.0, 400.0), (1000.0, 800.0)]
        {
            let tank = Tank {
                capacity_kwh: nominal,
                fill_limit: 0.8,
                reserve: 0.05,
                placement: Placement::AboveGround,
                shape: None,
            };
            assert!((tank.full_kwh() - holds).abs() < 1e-12);
            let levels = tank.levels(20);
            assert_eq!(levels.len(), 20);
            assert!((levels[0] - tank.reserve_kwh()).abs() < 1e-9 && levels[19] == tank.full_kwh());
        }
    }
}
