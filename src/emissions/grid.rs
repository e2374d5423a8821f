//! What a kWh from the grid stands for, by region, read from `data/grid.csv`.
//!
//! An average over the plants and hours of a year, which is not what one kWh more or less causes. Start
//! at [`Grid`].

use crate::fuel::{GWP_CH4, GWP_N2O};
use crate::problem::Problem;
use serde::Deserialize;
use std::sync::LazyLock;

/// Kilograms in a pound, exact.
const KG_PER_LB: f64 = 0.453_592_37;
/// The region that stands for the whole country.
pub const COUNTRY: &str = "US";

/// What the grid stands for where a house draws from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// The region's id and name; nothing where the job gives a figure of its own.
    pub region: Option<(String, String)>,
    /// For each kWh that plants give.
    pub rate: GridRate,
    /// Share of what plants give that is lost on the way to the house.
    pub loss: f64,
}

/// What goes into the air for each kWh that plants give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GridRate {
    /// CO2 (kg/kWh), where it is known by itself.
    pub co2_kg: Option<f64>,
    /// CO2, methane and nitrous oxide, as much CO2 as warms alike over 100 years (kg/kWh).
    pub co2e_kg: f64,
}

impl Grid {
    /// For each kWh that the house draws: CO2 where it is known by itself, and CO2e (kg/kWh).
    pub fn for_each_kwh_drawn(&self) -> GridRate {
        let given = 1.0 / (1.0 - self.loss);
        GridRate { co2_kg: self.rate.co2_kg.map(|kg| kg * given), co2e_kg: self.rate.co2e_kg * given }
    }
}

/// One region of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Region {
    /// Its id, as the table's source writes it.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What it stands for.
    pub rate: GridRate,
}

#[derive(Deserialize)]
struct Row {
    id: String,
    name: String,
    co2_lb_per_mwh: f64,
    ch4_lb_per_mwh: f64,
    n2o_lb_per_mwh: f64,
}

/// The regions that come with the program, `data/grid.csv`.
///
/// # Errors
/// A line that cannot be read; that is a defect of the program's own data.
pub fn regions() -> Result<&'static [Region], Problem> {
    static READ: LazyLock<Result<Vec<Region>, Problem>> = LazyLock::new(read);
    READ.as_ref().map(Vec::as_slice).map_err(Clone::clone)
}

fn read() -> Result<Vec<Region>, Problem> {
    let text = include_str!("../../data/grid.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let rows: Result<Vec<Row>, _> = reader.deserialize().collect();
    let rows = rows.map_err(|e| Problem::new(e.to_string()).in_file("grid.csv"))?;
    let kg = |lb_per_mwh: f64| lb_per_mwh * KG_PER_LB / 1000.0;
    let region = |row: Row| {
        let (co2, ch4, n2o) = (kg(row.co2_lb_per_mwh), kg(row.ch4_lb_per_mwh), kg(row.n2o_lb_per_mwh));
        let rate = GridRate { co2_kg: Some(co2), co2e_kg: co2 + GWP_CH4 * ch4 + GWP_N2O * n2o };
        Region { id: row.id, name: row.name, rate }
    };
    Ok(rows.into_iter().map(region).collect())
}
