//! The bills of winters gone by beside what is calculated for their days: a table, sentences, JSON.
//!
//! Start at [`table`].

use super::figures::{grouped, signed};
use super::model::{Cell, Column, Table};
use crate::comparison::note::PastBillOff;
use crate::comparison::{Comparison, PastBill, PastUse};
use crate::fuel::Fuel;
use crate::load::past_use::{MONTHLY_BIAS, MONTHLY_SCATTER};
use schemars::JsonSchema;
use serde::Serialize;

/// Of fewer bills than this, measures of scatter say nothing: a judgement.
const MEASURED_FROM: usize = 6;

/// Each bill with what is calculated for its days, and all together; nothing where the job has none.
pub fn table(c: &Comparison) -> Option<Table> {
    let past = c.past_use.as_ref()?;
    let fuel = c.fuels.get(past.fuel)?;
    let unit = &fuel.selling_unit;
    let key = unit.replace(' ', "_");
    let columns = vec![
        Column::words("From", "from"),
        Column::words("To", "to"),
        Column::numbers("Days", "days"),
        Column::numbers(format!("Used, {unit}"), format!("used_{key}")),
        Column::numbers(format!("Calculated, {unit}"), format!("calculated_{key}")),
        Column::numbers("Calculated more by, %", "excess_percent"),
    ];
    let mut rows: Vec<_> = past.bills.iter().map(|bill| bill_row(fuel, bill)).collect();
    if past.bills.len() > 1 {
        let days = past.bills.iter().map(days).sum();
        rows.push(row(fuel, ["all".into(), "".into()], days, (past.used_kwh(), past.calculated_kwh())));
    }
    Some(Table {
        name: "past_use".into(),
        heading: "Does it agree with the bills of winters gone by?".into(),
        columns,
        rows,
        remark: Some(format!("{}{}", how(c, past), measures(past))),
    })
}

fn days(bill: &PastBill) -> f64 {
    (bill.to - bill.from).num_days() as f64
}

fn bill_row(fuel: &Fuel, bill: &PastBill) -> Vec<Cell> {
    let ends = [bill.from, bill.to].map(|day| day.to_string());
    row(fuel, ends, days(bill), (bill.used_kwh, bill.calculated_kwh))
}

fn row(fuel: &Fuel, [from, to]: [String; 2], days: f64, (used, calculated): (f64, f64)) -> Vec<Cell> {
    vec![
        Cell::text(from),
        Cell::text(to),
        Cell::number(days, 0),
        Cell::number(used / fuel.kwh_per_unit, 0),
        Cell::number(calculated / fuel.kwh_per_unit, 0),
        Cell::number(100.0 * (calculated / used - 1.0), 0),
    ]
}

/// What stands behind the calculated figures.
fn how(c: &Comparison, past: &PastUse) -> String {
    let weather = match (past.in_own_weather(), past.bills.len()) {
        (own, all) if own == all => "in the weather of those days".to_owned(),
        (0, _) => "on the same days of the year that is shown here, not in their own weather".to_owned(),
        (own, all) => format!(
            "in the weather of those days for {own} of the {all} bills, of the others on the same days of the year \
             that is shown here"
        ),
    };
    let house = if c.zones.len() == 1 { "the house needs" } else { "all zones need" };
    format!(
        "Calculated: the heat that {house}, hour by hour with what the rooms store, {weather}, {} % of the fuel\u{2019}s energy reaching the rooms, and \
         what else took of that fuel. Set points and habits are those of the job.",
        grouped(100.0 * past.efficiency, 0)
    )
}

fn measures(past: &PastUse) -> String {
    let enough = past.agreement.filter(|_| past.bills.len() >= MEASURED_FROM);
    enough.map_or_else(String::new, |found| {
        format!(
            " Bias {} %, scatter {} % (NMBE and CV(RMSE) of ASHRAE Guideline 14, which takes a calculation as \
             calibrated on monthly bills up to \u{b1}{} % and {} %).",
            grouped(100.0 * found.bias, 1),
            grouped(100.0 * found.scatter, 1),
            grouped(100.0 * MONTHLY_BIAS, 0),
            grouped(100.0 * MONTHLY_SCATTER, 0)
        )
    })
}

/// What the bills say, for page one.
pub fn words(c: &Comparison) -> Option<String> {
    let past = c.past_use.as_ref()?;
    let fuel = c.fuels.get(past.fuel)?;
    let amount = |kwh: f64| format!("{}\u{a0}{}", grouped(kwh / fuel.kwh_per_unit, 0), fuel.selling_unit);
    let first = past.bills.iter().map(|bill| bill.from).min()?.format("%-d %b %Y");
    let last = past.bills.iter().map(|bill| bill.to).max()?.format("%-d %b %Y");
    let bills = if past.bills.len() == 1 { "bill" } else { "bills" };
    let source = past.source.as_ref().map_or_else(String::new, |source| format!(" ({source})"));
    let all = past.bills.len();
    let weather = match past.in_own_weather() {
        own if own == all => "For the same days in their own weather".to_owned(),
        0 => "For the same days of the year shown here, which was not theirs,".to_owned(),
        own => format!("For the same days, {own} of {all} bills in their own weather,"),
    };
    let least = past.bills.iter().map(PastBill::excess).fold(f64::INFINITY, f64::min);
    let most = past.bills.iter().map(PastBill::excess).fold(f64::NEG_INFINITY, f64::max);
    let single = match all {
        1 => String::new(),
        _ => format!(" Single bills: from {} to {} %.", signed(100.0 * least, 0), signed(100.0 * most, 0)),
    };
    Some(format!(
        "{all} {bills} between {first} and {last}{source}: {} of {} used. {weather} {} come out here, other use \
         included: {}{single}",
        amount(past.used_kwh()),
        fuel.name,
        amount(past.calculated_kwh()),
        judged(c, past)
    ))
}

/// A bill that must be looked at.
pub fn off(bill: &PastBillOff) -> String {
    format!(
        "Past use: a bill from {} to {} has {} {} where {} come out for its days. Is it a digit, a unit or a date \
         that slipped? See past_use.bills.",
        bill.from,
        bill.to,
        grouped(bill.used, 0),
        bill.unit,
        grouped(bill.calculated, 0)
    )
}

/// How far they lie apart, and what follows.
fn judged(c: &Comparison, past: &PastUse) -> String {
    let percent = (100.0 * past.excess()).round();
    let apart = match percent {
        0.0 => "the same".to_owned(),
        more if more > 0.0 => format!("{} % more", grouped(more, 0)),
        less => format!("{} % less", grouped(-less, 0)),
    };
    let within = format!("{} %", grouped(100.0 * c.load_uncertainty, 0));
    match past.excess().abs() <= c.load_uncertainty {
        true => format!("{apart}, within the {within} by which the heat need may be off."),
        false => format!(
            "{apart}, beyond the {within} by which the heat need may be off. Find out why before you sign: rooms \
             left cool, another stove, the old machine\u{2019}s real efficiency, or the loads."
        ),
    }
}

/// The bills as JSON.
#[derive(Serialize, JsonSchema)]
pub(super) struct PastUseDocument<'a> {
    fuel: &'a str,
    /// The unit of all amounts here.
    unit: &'a str,
    /// Share of the fuel's energy that reached the rooms as heat.
    efficiency: f64,
    source: Option<&'a str>,
    /// Whether the weather was that of the own days of all bills.
    own_days: bool,
    used: f64,
    calculated: f64,
    excess_percent: f64,
    /// NMBE of ASHRAE Guideline 14, measured less calculated.
    bias_percent: Option<f64>,
    /// CV(RMSE) of the same.
    scatter_percent: Option<f64>,
    bills: Vec<BillDocument>,
}

#[derive(Serialize, JsonSchema)]
struct BillDocument {
    from: String,
    /// The day after the last.
    to: String,
    used: f64,
    calculated: f64,
    /// Whether the weather was that of its own days.
    own_days: bool,
}

/// The bills as JSON; nothing where the job has none.
pub(super) fn document(c: &Comparison) -> Option<PastUseDocument<'_>> {
    let past = c.past_use.as_ref()?;
    let fuel = c.fuels.get(past.fuel)?;
    let units = |kwh: f64| kwh / fuel.kwh_per_unit;
    let bill = |bill: &PastBill| BillDocument {
        from: bill.from.to_string(),
        to: bill.to.to_string(),
        used: units(bill.used_kwh),
        calculated: units(bill.calculated_kwh),
        own_days: bill.own_days,
    };
    Some(PastUseDocument {
        fuel: &fuel.id,
        unit: &fuel.selling_unit,
        efficiency: past.efficiency,
        source: past.source.as_deref(),
        own_days: past.in_own_weather() == past.bills.len(),
        used: units(past.used_kwh()),
        calculated: units(past.calculated_kwh()),
        excess_percent: 100.0 * past.excess(),
        bias_percent: past.agreement.map(|found| 100.0 * found.bias),
        scatter_percent: past.agreement.map(|found| 100.0 * found.scatter),
        bills: past.bills.iter().map(bill).collect(),
    })
}
