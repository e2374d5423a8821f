//! Tables of studies: the changeover sweep and candidate sizes.
//!
//! Start at [`changeover`] and [`sizes`].

use super::figures::{Measure, money};
use super::model::{Cell, Column, Table};
use crate::study::{CandidateSizes, ChangeoverSweep, SizeRow, SweepRow};

/// Settings that cost no more than this above the best are as good, in the job's currency.
const AS_GOOD: f64 = 25.0;

fn amount(currency: &str, value: f64) -> Cell {
    Cell::Number { value, shown: money(currency, value) }
}

/// Yearly cost by compressor lock-out, with what a wrong setting costs.
pub fn changeover(sweep: &ChangeoverSweep, currency: &str, measure: Measure) -> Table {
    let rows = sweep.rows.iter().enumerate().map(|(i, row)| {
        vec![
            Cell::number(measure.temperature(row.lockout_c), 0),
            amount(currency, row.yearly_cost),
            amount(currency, row.over_best),
            Cell::number(row.hours_not_kept_warm as f64, 0),
            Cell::text(if sweep.best == Some(i) { "least" } else { "" }),
        ]
    });
    Table {
        name: "changeover".into(),
        heading: format!("At which outdoor temperature should \u{201c}{}\u{201d} change over?", sweep.option),
        columns: vec![
            Column::numbers(
                format!("Heat pump locked out below {}", measure.degree()),
                format!("compressor_lockout_{}", measure.degree_key()),
            ),
            Column::numbers("A year", "yearly_cost"),
            Column::numbers("More than the least", "over_least"),
            Column::numbers("Hours not warm", "hours_not_kept_warm"),
            Column::words("", "mark"),
        ],
        rows: rows.collect(),
        remark: changeover_remark(sweep, currency, measure),
    }
}

fn changeover_remark(sweep: &ChangeoverSweep, currency: &str, measure: Measure) -> Option<String> {
    let best = sweep.rows.get(sweep.best?)?;
    let warm = || sweep.rows.iter().filter(|r| r.hours_not_kept_warm == 0);
    let as_good: Vec<&SweepRow> = warm().filter(|r| r.over_best <= AS_GOOD).collect();
    let worst = warm().max_by(|a, b| a.over_best.total_cmp(&b.over_best))?;
    let at = |row: &SweepRow| measure.temperature_words(row.lockout_c);
    let (first, last) = (as_good.first()?, as_good.last()?);
    Some(format!(
        "Least at {}. From {} to {} it costs within {} of that; the worst setting here, {}, costs {} more a year.",
        at(best),
        at(first),
        at(last),
        money(currency, AS_GOOD),
        at(worst),
        money(currency, worst.over_best)
    ))
}

/// Candidates for the first machine of a zone, side by side.
pub fn sizes(candidates: &CandidateSizes, currency: &str) -> Table {
    Table {
        name: "candidate_sizes".into(),
        heading: format!(
            "Which first machine for the zone {} of \u{201c}{}\u{201d}?",
            candidates.zone, candidates.option
        ),
        columns: vec![
            Column::words("Machine", "machine"),
            Column::numbers("% of design need alone", "share_of_design_percent"),
            Column::numbers("Hours cycling", "cycling_hours"),
            Column::numbers("Backup heat kWh", "backup_heat_kWh"),
            Column::numbers("Hours not warm", "hours_not_kept_warm"),
            Column::numbers("A year", "yearly_cost"),
        ],
        rows: candidates.rows.iter().map(|row| size_row(row, currency)).collect(),
        remark: Some(
            "Hours cycling: hours in which it gave less than its least output and had to stop and start."
                .into(),
        ),
    }
}

fn size_row(row: &SizeRow, currency: &str) -> Vec<Cell> {
    let percent = 100.0 * row.share_of_design;
    let share = if percent.is_finite() { Cell::cut(percent) } else { Cell::Missing };
    vec![
        Cell::text(&row.machine),
        share,
        Cell::number(row.cycling_hours as f64, 0),
        Cell::number(row.backup_heat_kwh, 0),
        Cell::number(row.hours_not_kept_warm as f64, 0),
        amount(currency, row.yearly_cost),
    ]
}
