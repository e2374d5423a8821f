//! An option's year of energy into what it sends into the air.
//!
//! Start at [`Emissions::of`].

use super::grid::Grid;
use crate::fuel::{FuelId, Fuels};

/// What a year sends into the air.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Emissions {
    /// CO2 (kg); nothing where part of it is not known by itself.
    pub co2_kg: Option<f64>,
    /// CO2, methane and nitrous oxide as CO2 (kg).
    pub co2e_kg: f64,
    /// The part of that from electricity (kg).
    pub electricity_co2e_kg: f64,
    /// CO2 of wood (kg), which grew a short while ago and is counted in neither.
    pub biogenic_co2_kg: f64,
    /// Fuels that were burned and of which no figure is at hand.
    pub unknown: Vec<FuelId>,
}

impl Emissions {
    /// Of so many kWh (HHV) of each fuel.
    pub fn of(kwh: impl Fn(FuelId) -> f64, fuels: &Fuels, grid: &Grid) -> Self {
        let drawn = kwh(FuelId::ELECTRICITY);
        let rate = grid.for_each_kwh_drawn();
        let from_grid = drawn * rate.co2e_kg;
        let mut sum = Self {
            co2_kg: rate.co2_kg.map(|kg| drawn * kg),
            co2e_kg: from_grid,
            electricity_co2e_kg: from_grid,
            ..Self::default()
        };
        for (id, fuel) in fuels.iter().filter(|(id, _)| *id != FuelId::ELECTRICITY) {
            let burned = kwh(id);
            match fuel.burning {
                _ if burned == 0.0 => {}
                Some(burning) => {
                    sum.co2_kg = sum.co2_kg.map(|kg| kg + burned * burning.co2_kg);
                    sum.co2e_kg += burned * burning.co2e_kg;
                    sum.biogenic_co2_kg += burned * burning.biogenic_co2_kg;
                }
                None => sum.unknown.push(id),
            }
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::emissions::grid::{GridRate, regions};
    use crate::units::btu_to_kwh;

    /// Hand-worked: 1,000 kWh drawn with 5 % lost is 1,052.632 given, at 0.4 kg 421.053 kg; 10 million Btu
    /// of propane are 628.70 kg of CO2 (40 CFR 98 Table C-1) and 631.13 kg of CO2e (Table C-2, 28 and 265).
    #[test]
    fn electricity_and_fuel_add_up_and_wood_stands_apart() {
        let fuels = Fuels::built_in().unwrap();
        let rate = GridRate { co2_kg: Some(0.4), co2e_kg: 0.4 };
        let grid = Grid { region: None, rate, loss: 0.05 };
        let (propane, wood) = (fuels.find("propane").unwrap(), fuels.find("cord_wood").unwrap());
        let mmbtu = btu_to_kwh(1e6);
        let of = |fuel: FuelId| match fuel {
            FuelId::ELECTRICITY => 1000.0,
            f if f == propane => 10.0 * mmbtu,
            f if f == wood => mmbtu,
            _ => 0.0,
        };
        let sum = Emissions::of(of, &fuels, &grid);
        assert!((sum.electricity_co2e_kg - 421.053).abs() < 1e-3);
        assert!((sum.co2_kg.unwrap() - 421.053 - 628.70).abs() < 1e-3);
        // Wood's own methane and nitrous oxide are counted: 28 · 0.0072 + 265 · 0.0036 = 1.1556 kg.
        assert!((sum.co2e_kg - 421.053 - 631.13 - 1.1556).abs() < 1e-3, "{}", sum.co2e_kg);
        assert!((sum.biogenic_co2_kg - 93.80).abs() < 1e-9);
    }

    /// Published figures of 40 CFR 98 Tables C-1 and C-2 with 28 and 265: kg for each million Btu.
    #[test]
    fn fuels_have_their_published_figures() {
        let fuels = Fuels::built_in().unwrap();
        let of = |id: &str| {
            let burning = fuels.get(fuels.find(id).unwrap()).unwrap().burning.unwrap();
            (burning.co2_kg * btu_to_kwh(1e6), burning.co2e_kg * btu_to_kwh(1e6))
        };
        for (id, co2, co2e) in
            [("natural_gas", 53.06, 53.115), ("propane", 62.87, 63.113), ("oil_no_2", 73.96, 74.203)]
        {
            assert!((of(id).0 - co2).abs() < 1e-9 && (of(id).1 - co2e).abs() < 6e-4, "{id} {:?}", of(id));
        }
    }

    /// Hand-worked: 1000.053 lb/MWh · 0.45359237 = 453.616 kg/MWh; 0.087 lb of methane and 0.012 of nitrous
    /// oxide are as 5.616 lb of CO2 more.
    #[test]
    fn regions_have_their_published_rates() {
        let regions = regions().unwrap();
        let of = |id: &str| regions.iter().find(|region| region.id == id).unwrap().rate;
        assert!((of("RFCW").co2_kg.unwrap() - 0.453616).abs() < 1e-6);
        assert!((of("RFCW").co2e_kg - (1000.053 + 5.616) * 0.000_453_592_37).abs() < 1e-9);
        assert!((of("NYUP").co2_kg.unwrap() - 0.124538).abs() < 1e-6);
        assert_eq!(regions.len(), 28);
    }
}
