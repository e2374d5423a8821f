//! What the machines' own figures would be rated at: a table, and JSON.
//!
//! Start at [`table`].

use super::figures::Measure;
use super::model::{Cell, Column, Table};
use crate::comparison::ratings::BIVALENT_C;
use crate::comparison::{Comparison, MachineRatings};
use crate::equipment::ratings::of_map::Speeds;
use crate::equipment::ratings::seasons::UsRegion;
use schemars::JsonSchema;
use serde::Serialize;

/// The regions that the table shows: the label's, and its neighbours on both sides.
const SHOWN: [(&str, UsRegion); 3] = [("III", UsRegion::III), ("IV", UsRegion::IV), ("V", UsRegion::V)];

/// The ratings of every machine that has some; nothing where none has.
pub fn table(c: &Comparison) -> Option<Table> {
    let mut columns = vec![Column::words("Machine", "machine"), Column::words("Speeds", "speeds")];
    columns.extend(
        SHOWN.map(|(r, _)| Column::numbers(format!("HSPF2 {r}"), format!("hspf2_{}", r.to_lowercase()))),
    );
    columns.extend([
        Column::numbers("HSPF IV", "hspf_iv"),
        Column::numbers("SEER2", "seer2"),
        Column::numbers("SCOP", "scop_on_average"),
        Column::numbers("SEER", "seer_on"),
    ]);
    let row = |rating: &MachineRatings| {
        let mut row = vec![Cell::text(&rating.machine), Cell::text(speeds(rating))];
        row.extend(SHOWN.map(|(_, region)| Cell::maybe(rating.hspf2_in(region), 1)));
        row.extend([rating.hspf, rating.seer2].map(|value| Cell::maybe(value, 1)));
        row.extend([rating.scop_on, rating.seer_on].map(|value| Cell::maybe(value, 2)));
        row
    };
    let rows: Vec<_> = c.ratings.iter().map(row).collect();
    (!rows.is_empty()).then(|| Table {
        name: "ratings".into(),
        heading: "What would the machines\u{2019} own figures be rated at?".into(),
        columns,
        rows,
        remark: Some(format!(
            "HSPF2 by climate region, a label\u{2019}s is IV (all six are in the JSON); HSPF2 and SEER2 by 10 CFR 430 \
             Appendix M1, HSPF by Appendix M, SCOP (on, average climate, bivalent at {}) and SEER (on) by EN 14825, \
             from the rows of the job with its cut-out; full output only: a mode without least output is rated as of \
             one speed. They are the standards\u{2019} own sums: what a year costs here comes from the hours.",
            Measure(c.units).temperature_words(BIVALENT_C)
        )),
    })
}

fn speeds(rating: &MachineRatings) -> &'static str {
    match rating.speeds {
        _ if !rating.part_load_known => "full output only",
        Speeds::One => "one",
        Speeds::Two => "two",
        Speeds::Variable => "variable",
    }
}

/// One machine's ratings as JSON; Btu/Wh but for the two of EN 14825.
#[derive(Serialize, JsonSchema)]
pub(super) struct RatingsDocument<'a> {
    machine: &'a str,
    speeds: &'static str,
    /// Of regions I to VI.
    hspf2: [Option<f64>; 6],
    /// Of region IV.
    hspf: Option<f64>,
    seer2: Option<f64>,
    /// Of the average climate, bivalent at −7 °C.
    scop_on: Option<f64>,
    seer_on: Option<f64>,
}

/// The ratings as JSON.
pub(super) fn documents(c: &Comparison) -> Vec<RatingsDocument<'_>> {
    c.ratings.iter().map(document).collect()
}

fn document(rating: &MachineRatings) -> RatingsDocument<'_> {
    RatingsDocument {
        machine: &rating.machine,
        speeds: speeds(rating),
        hspf2: rating.hspf2,
        hspf: rating.hspf,
        seer2: rating.seer2,
        scop_on: rating.scop_on,
        seer_on: rating.seer_on,
    }
}
