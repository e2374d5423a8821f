//! Generic performance tables that come with the program, read from `data/equipment/`.
//!
//! Unbranded and labelled with where their numbers come from. Start at [`open`].

use super::map::{MapRow, PerformanceMap, Point};
use crate::problem::Problem;
use crate::sources::Source;
use crate::units::{btu_to_kwh, fahrenheit_to_celsius};
use serde::Deserialize;

/// A generic machine's table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// What it describes.
    pub description: String,
    /// Where its numbers come from.
    pub source: Source,
    /// Whether its capacities already pay for defrosting.
    pub with_defrost: bool,
    /// Whether its power includes the indoor fan.
    pub includes_fan: bool,
    /// Whether it has one speed, so that it cycles below its only output.
    pub one_speed: bool,
    /// Heating rows, if it heats.
    pub heating: Option<PerformanceMap>,
    /// Cooling rows, if it cools.
    pub cooling: Option<PerformanceMap>,
}

const TABLES: [(&str, &str); 3] = [
    ("single-speed-30", include_str!("../../data/equipment/single-speed-30.csv")),
    ("single-speed-36", include_str!("../../data/equipment/single-speed-36.csv")),
    ("cold-climate-36", include_str!("../../data/equipment/cold-climate-36.csv")),
];

/// The names of the tables.
pub fn names() -> Vec<&'static str> {
    TABLES.iter().map(|(name, _)| *name).collect()
}

/// Opens the table of that name.
///
/// ```
/// let table = winterledger::equipment::tables::open("single-speed-30").unwrap();
/// assert_eq!(table.heating.unwrap().rows().len(), 13);
/// ```
///
/// # Errors
/// A problem that lists the names there are.
pub fn open(name: &str) -> Result<Table, Problem> {
    let found = TABLES.iter().find(|(n, _)| *n == name);
    let (_, text) = found.ok_or_else(|| {
        Problem::new(format!("there is no built-in table '{name}'"))
            .allowed(names().join(", "))
            .help("Name one of these, or type the rows of the machine's own table")
    })?;
    read(name, text)
}

#[derive(Deserialize)]
struct Row {
    mode: String,
    #[serde(rename = "outdoor_degF")]
    outdoor_f: f64,
    #[serde(rename = "least_Btuh")]
    least_btuh: Option<f64>,
    #[serde(rename = "least_kW")]
    least_kw: Option<f64>,
    #[serde(rename = "greatest_Btuh")]
    greatest_btuh: f64,
    #[serde(rename = "greatest_kW")]
    greatest_kw: f64,
}

impl From<&Row> for MapRow {
    fn from(row: &Row) -> Self {
        let greatest = Point { capacity_kw: btu_to_kwh(row.greatest_btuh), power_kw: row.greatest_kw };
        let least = match (row.least_btuh, row.least_kw) {
            (Some(btuh), Some(power_kw)) => Point { capacity_kw: btu_to_kwh(btuh), power_kw },
            _ => greatest,
        };
        Self { outdoor_c: fahrenheit_to_celsius(row.outdoor_f), least, rated: greatest, greatest }
    }
}

fn read(name: &str, text: &str) -> Result<Table, Problem> {
    let label = |key: &str| {
        let line = text.lines().find_map(|l| l.strip_prefix("# ")?.strip_prefix(key)?.strip_prefix(": "));
        line.unwrap_or_default().to_owned()
    };
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let rows: Result<Vec<Row>, _> = reader.deserialize().collect();
    let rows = rows.map_err(|e| Problem::new(e.to_string()).in_file(format!("{name}.csv")))?;
    let of = |mode: &str| rows.iter().filter(|r| r.mode == mode).map(MapRow::from).collect();
    Ok(Table {
        description: label("description"),
        source: match label("origin").as_str() {
            "published" => Source::Published(label("source")),
            _ => Source::FromMemory(label("source")),
        },
        with_defrost: label("capacity_basis") == "with_defrost",
        includes_fan: label("power_includes_indoor_fan") == "yes",
        one_speed: label("speed") == "one",
        heating: PerformanceMap::new(of("heating")),
        cooling: PerformanceMap::new(of("cooling")),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_says_where_its_numbers_come_from() {
        for name in names() {
            let source = open(name).unwrap().source;
            let (Source::Published(text) | Source::FromMemory(text)) = &source else { panic!("{source:?}") };
            assert!(!text.is_empty(), "{name}");
        }
        assert!(matches!(open("cold-climate-36").unwrap().source, Source::FromMemory(_)));
    }

    #[test]
    fn the_three_ton_table_is_the_smaller_one_times_what_it_says() {
        let rows = |name| open(name).unwrap().heating.unwrap().rows().to_vec();
        for (small, large) in rows("single-speed-30").iter().zip(rows("single-speed-36")) {
            assert!((large.greatest.capacity_kw / small.greatest.capacity_kw - 1.2).abs() < 1e-9);
            assert!((large.greatest.power_kw / small.greatest.power_kw - 1.2).abs() < 1e-9);
        }
    }
}
