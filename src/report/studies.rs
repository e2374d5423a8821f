//! Tables of studies: the changeover sweep and candidate sizes.
//!
//! Start at [`changeover`] and [`sizes`].

use super::charts::{CostBar, CostChart};
use super::figures::{Measure, grouped, money};
use super::model::{Cell, Column, Table};
use super::money::READING_ORDER;
use super::{slow, wording};
use crate::coldnight::supply_air::six_inch_runs;
use crate::ledger::SAME_COST;
use crate::simulation::EndUse;
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
            Cell::text(if sweep.best.contains(&i) { "least" } else { "" }),
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

/// What precedes the least cost where the house stays cold whatever the setting.
const NO_SETTING_WARM: &str =
    "This option goes cold at every setting; those that leave the fewest hours cold are compared. ";

fn changeover_remark(sweep: &ChangeoverSweep, currency: &str, measure: Measure) -> Option<String> {
    let at = |row: &SweepRow| measure.temperature_words(row.lockout_c);
    let best: Vec<String> = sweep.best.iter().filter_map(|i| Some(at(sweep.rows.get(*i)?))).collect();
    let judged = || sweep.rows.iter().filter(|row| row.judged);
    let as_good: Vec<&SweepRow> = judged().filter(|r| r.over_best <= AS_GOOD).collect();
    let worst = judged().max_by(|a, b| a.over_best.total_cmp(&b.over_best))?;
    let (first, last) = (as_good.first()?, as_good.last()?);
    let least = match best.as_slice() {
        [] => return None,
        [one] => format!("Least at {one}."),
        [others @ .., last] => format!("Least, and equally little, at {} and {last}.", others.join(", ")),
    };
    let cold = if judged().any(|row| row.warmth.lacks_heat()) { NO_SETTING_WARM } else { "" };
    Some(format!(
        "{cold}{least} From {} to {} it costs within {} of that; the worst setting here, {}, costs {} more a year: that \
         is what a wrong setting costs.{}",
        at(first),
        at(last),
        money(currency, AS_GOOD),
        at(worst),
        money(currency, worst.over_best),
        flat_words(sweep, measure).unwrap_or_default()
    ))
}

/// Why cold settings cost the same where an hour goes wholly to the furnace.
fn flat_words(sweep: &ChangeoverSweep, measure: Measure) -> Option<String> {
    let coldest = sweep.rows.first().filter(|_| sweep.whole_hour)?;
    let same = |r: &&SweepRow| (r.yearly_cost - coldest.yearly_cost).abs() < SAME_COST;
    let last = sweep.rows.iter().take_while(same).last().filter(|r| r.lockout_c > coldest.lockout_c)?;
    Some(format!(
        " Up to {} settings cost the same: an hour that the heat pump cannot carry goes wholly to the furnace \
         (sharing = \"whole_hour\"), and colder than that it carries none.",
        measure.temperature_words(last.lockout_c)
    ))
}

/// The settings as bars, stacked by use.
pub fn changeover_chart(sweep: &ChangeoverSweep, currency: &str, measure: Measure, about: &str) -> CostChart {
    let bars = sweep.rows.iter().enumerate().map(|(i, row)| {
        let least = if sweep.best.contains(&i) { " (least)" } else { "" };
        let name = format!("{}{least}", measure.temperature_words(row.lockout_c));
        bar(name, row.yearly_cost, &row.by_use, slow::mark(row.warmth, row.hours_not_kept_warm))
    });
    CostChart {
        title: format!("What \u{201c}{}\u{201d} costs in a year by its changeover", sweep.option),
        subtitle: about.to_owned(),
        currency: currency.to_owned(),
        spoken: "Yearly cost by the outdoor temperature below which the heat pump is locked out.".into(),
        options: bars.collect(),
        foot: "Heat pump locked out below that outdoor temperature. An estimate, not a quote.".into(),
    }
}

/// The candidates as bars, stacked by use.
pub fn sizes_chart(candidates: &CandidateSizes, currency: &str, about: &str) -> CostChart {
    let bars = candidates.rows.iter().map(|row| {
        let share = 100.0 * row.share_of_design;
        let carries =
            if share.is_finite() { format!("{} % of need alone, ", share.floor()) } else { String::new() };
        let hours = grouped(row.cycling_hours as f64, 0);
        let name = format!("{}: {carries}{hours} h cycling", row.machine);
        bar(name, row.yearly_cost, &row.by_use, slow::mark(row.warmth, row.hours_not_kept_warm))
    });
    CostChart {
        title: format!("What \u{201c}{}\u{201d} costs in a year by its first machine", candidates.option),
        subtitle: format!("{} \u{b7} {about}", candidates.zone),
        currency: currency.to_owned(),
        spoken: "Yearly cost by candidate, one bar a machine.".into(),
        options: bars.collect(),
        foot: "Share of the need at the design temperature that the machine meets alone. An estimate, not a quote."
            .into(),
    }
}

fn bar(name: String, total: f64, by_use: &[(EndUse, f64)], warning: Option<String>) -> CostBar {
    let of = |u: EndUse| by_use.iter().find(|(own, _)| *own == u).map(|(_, amount)| *amount);
    let uses = READING_ORDER.iter().filter_map(|u| Some((wording::end_use(*u).to_owned(), of(*u)?)));
    CostBar { name, segments: uses.collect(), total, warning }
}

/// Candidates for the first machine of a zone, side by side.
pub fn sizes(candidates: &CandidateSizes, currency: &str, measure: Measure) -> Table {
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
            Column::numbers("From", "yearly_cost_from"),
            Column::numbers("To", "yearly_cost_to"),
            Column::numbers(measure.pick("Air cfm", "Air L/s"), measure.pick("airflow_cfm", "airflow_L_s")),
            Column::numbers("6-inch runs", "six_inch_runs"),
        ],
        rows: candidates.rows.iter().map(|row| size_row(row, currency, measure)).collect(),
        remark: Some(size_remark(candidates, measure)),
    }
}

fn size_remark(candidates: &CandidateSizes, measure: Measure) -> String {
    let air = measure.pick(
        "400 cfm a ton (12,000 Btu/h), about 100 cfm a 6-inch round run of smooth pipe (75 to 80 of flex), a filter \
         grille for 300 ft/min or less",
        "54 L/s a kW, about 47 L/s a 6-inch (15 cm) round run of smooth pipe (35 to 38 of flex), a filter grille for \
         1.5 m/s or less",
    );
    let off = match candidates.rows.iter().any(|row| row.share_of_design == 0.0) {
        true => "Off: locked out, or at its cut-out, at the design temperature. ",
        false => "",
    };
    let open = match candidates.rows.iter().any(|row| row.yearly_cost_range.is_some()) {
        true => "From and to: what a nameplate leaves open of the cost. ",
        false => "",
    };
    format!(
        "{off}{open}Hours cycling: hours in which it gave less than its least output and had to stop and start. Common \
         practice for air, where the job gives none: {air}. See whether ducts and grille that are there carry it. \
         Floor area says nothing of the heat that a room needs: the load calculation does."
    )
}

fn size_row(row: &SizeRow, currency: &str, measure: Measure) -> Vec<Cell> {
    let percent = 100.0 * row.share_of_design;
    let share = match percent {
        0.0 => Cell::text("off"),
        _ if percent.is_finite() => Cell::cut(percent),
        _ => Cell::Missing,
    };
    let end = |of: Option<f64>| of.map_or(Cell::Missing, |value| amount(currency, value));
    vec![
        Cell::text(&row.machine),
        share,
        Cell::number(row.cycling_hours as f64, 0),
        Cell::number(row.backup_heat_kwh, 0),
        Cell::number(row.hours_not_kept_warm as f64, 0),
        amount(currency, row.yearly_cost),
        end(row.yearly_cost_range.map(|range| range.0)),
        end(row.yearly_cost_range.map(|range| range.1)),
        Cell::maybe(row.airflow_m3_s.map(|flow| measure.airflow(flow)), 0),
        Cell::maybe(row.airflow_m3_s.map(six_inch_runs), 0),
    ]
}
