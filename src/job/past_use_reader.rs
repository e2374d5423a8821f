//! The table `[past_use]` into its section.
//!
//! Must never know weather. Start at [`past_use`].

use super::house_reader::a_day;
use super::limits::from_to;
use super::past_use::{BillSection, PastUseSection};
use super::rate_reader::amount;
use super::table::Table;
use super::values::{number_or, text};
use super::wording::{Fault, quoted};
use chrono::NaiveDate;
use toml::de::DeValue;

/// Longer than a year and a month, a bill says nothing of winter and summer.
const LONGEST_DAYS: i64 = 400;

/// Reads `[past_use]`.
pub(super) fn past_use(mut table: Table<'_>) -> Option<PastUseSection> {
    let fuel = table.req("fuel", text);
    let efficiency = table.req("efficiency", number_or(from_to(0.3, 5.0), EFFICIENCY_HELP));
    let other_use = table.opt("other_use", amount);
    let source = table.opt("source", text);
    if !table.has("bills") {
        table.need("bills");
    }
    let tables = table.tables("bills", "");
    let count = tables.len();
    if table.is_empty_list("bills")
        && let Some(value) = table.value("bills")
    {
        table.bad_value("bills", &value.span(), Fault::new("the list is empty").help(BILL_HELP));
    }
    let bills: Vec<_> = tables.into_iter().filter_map(bill).collect();
    apart(&table, &bills);
    table.done();
    let all = bills.len() == count && count > 0;
    Some(PastUseSection {
        fuel: fuel?,
        efficiency: efficiency?,
        other_use,
        source,
        bills: all.then_some(bills)?,
    })
}

const EFFICIENCY_HELP: &str = "write a share, such as 0.78; of a heat pump its mean COP";
const BILL_HELP: &str =
    "write { from = \"2024-11-02\", to = \"2024-12-06\", used = \"142 gal\" } for each bill";

fn bill(mut table: Table<'_>) -> Option<BillSection> {
    let from = table.req("from", date);
    let to = table.req("to", date);
    let used = table.req("used", amount);
    if let (Some(from), Some(to)) = (&from, &to) {
        let days = (to.value - from.value).num_days();
        if !(1..=LONGEST_DAYS).contains(&days) {
            let what = match days < 1 {
                true if days < 0 => {
                    format!("the bill ends on {}, before it begins on {}", to.value, from.value)
                }
                true => format!("the bill begins and ends on {}", to.value),
                false => format!("the bill has {days} days"),
            };
            let fault = Fault::new(what);
            let fault = fault.allowed(format!("1 to {LONGEST_DAYS} days"));
            table.bad_form(
                "to",
                &to.span,
                fault.help("write the day of the reading or fill that ends the bill"),
            );
        }
    }
    table.done();
    Some(BillSection { from: from?, to: to?, used: used? })
}

fn date(value: &DeValue<'_>) -> Result<NaiveDate, Fault> {
    let day = a_day(value)?;
    NaiveDate::parse_from_str(&day, "%Y-%m-%d").map_err(|_| Fault::new(format!("{} is no day", quoted(&day))))
}

/// Bills that lie over each other would count days twice.
fn apart(table: &Table<'_>, bills: &[BillSection]) {
    let mut sorted: Vec<_> = bills.iter().collect();
    sorted.sort_by_key(|bill| bill.from.value);
    for pair in sorted.windows(2) {
        let [before, after] = pair else { continue };
        if after.from.value < before.to.value {
            let what =
                format!("a bill from {} begins before the one to {} ends", after.from.value, before.to.value);
            let help = "count each day once: a bill's to is the next one's from";
            table.bad_form("bills", &after.from.span, Fault::new(what).help(help));
        }
    }
}
