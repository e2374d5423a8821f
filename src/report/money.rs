//! Tables of money and fuel: by use, by month, by fuel, and every posting. All are sums of postings.
//!
//! Start at [`yearly_cost`].

use super::figures::money;
use super::model::{Cell, Column, Table};
use super::{bill_words, wording};
use crate::comparison::{Comparison, OptionResult};
use crate::fuel::FuelId;
use crate::ledger::Posting;
use crate::simulation::EndUse;

/// Uses in the order in which people read them.
pub const READING_ORDER: [EndUse; 12] = [
    EndUse::SpaceHeating,
    EndUse::BackupHeat,
    EndUse::HotWater,
    EndUse::Cooking,
    EndUse::Drying,
    EndUse::Base,
    EndUse::Cooling,
    EndUse::Standby,
    EndUse::FixedCharge,
    EndUse::Delivery,
    EndUse::Rent,
    EndUse::StockChange,
];

const HEATING_ADDS: &str = "Heating adds: all bills less what the bills would be without heating.";

fn amount(c: &Comparison, value: f64) -> Cell {
    Cell::Number { value, shown: money(&c.currency, value) }
}

/// What each option costs in a year, by use.
pub fn yearly_cost(c: &Comparison) -> Table {
    let uses = used(c);
    let mut columns = vec![Column::words("Option", "option"), Column::numbers("A year", "yearly_cost")];
    columns.extend(uses.iter().map(|u| {
        let words = wording::end_use(*u);
        Column::numbers(capital(words), format!("{}_cost", words.replace(' ', "_")))
    }));
    let heating_differs = c.options.iter().any(|o| o.heating_adds_other());
    if heating_differs {
        columns.push(Column::numbers("Heating adds", "heating_adds"));
    }
    let rows = c.options.iter().map(|o| {
        let mut row = vec![Cell::text(&o.design.name), amount(c, o.yearly_cost())];
        row.extend(uses.iter().map(|u| amount(c, o.ledger.sum(|p| p.end_use == *u))));
        if heating_differs {
            row.push(amount(c, o.heating_adds));
        }
        row
    });
    let adds = heating_differs.then(|| HEATING_ADDS.to_owned());
    let remark = adds.into_iter().chain(stored(c)).chain(left_open(c));
    Table {
        name: "yearly_cost".into(),
        heading: "What does it cost in this weather year, at the prices of this job?".into(),
        columns,
        rows: rows.collect(),
        remark: remark.reduce(|all, next| format!("{all} {next}")),
    }
}

/// How stores are counted.
fn stored(c: &Comparison) -> Option<String> {
    const STORED: &str = "Deliveries stand under the uses that drew what they replace. Stock change is fuel \
                          taken out of the store or put into it, and what the mean over starting levels of the \
                          store is apart from the job's own, so that the year is charged for what it burns \
                          and not for the luck of its first delivery.";
    c.options.iter().any(|o| !o.stores.is_empty()).then(|| STORED.to_owned())
}

/// What a year may cost where machines are known by their nameplates alone.
fn left_open(c: &Comparison) -> Option<String> {
    let range = |o: &OptionResult| {
        let (low, high) = o.yearly_cost_range()?;
        let (low, high) = (money(&c.currency, low), money(&c.currency, high));
        Some(format!("\u{201c}{}\u{201d} {low} to {high}", o.design.name))
    };
    let ranges: Vec<_> = c.options.iter().filter_map(range).collect();
    let what = "Machines known by their nameplates alone leave the yearly cost open, by judgement";
    (!ranges.is_empty()).then(|| format!("{what}: {}.", ranges.join(", ")))
}

/// Uses that some option pays for.
pub fn used(c: &Comparison) -> Vec<EndUse> {
    let pays = |u: &EndUse| c.options.iter().any(|o| o.ledger.postings.iter().any(|p| p.end_use == *u));
    READING_ORDER.into_iter().filter(pays).collect()
}

pub(super) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// What each option uses of each fuel.
pub fn fuel_use(c: &Comparison) -> Table {
    let bought = |id: FuelId| c.options.iter().any(|o| o.ledger.quantity(id) != 0.0);
    let fuels: Vec<_> = c.fuels.iter().filter(|(id, _)| bought(*id)).collect();
    let mut columns = vec![Column::words("Option", "option")];
    columns.extend(fuels.iter().map(|(_, f)| {
        let key = format!("{}_{}", f.id, f.selling_unit.replace(' ', "_"));
        Column::numbers(format!("{} {}", capital(&f.name), f.selling_unit), key)
    }));
    columns.push(Column::numbers("Backup heat in rooms kWh", "backup_heat_kWh"));
    let rows = c.options.iter().map(|o| {
        let mut row = vec![Cell::text(&o.design.name)];
        row.extend(fuels.iter().map(|(id, _)| Cell::number(o.ledger.quantity(*id), 0)));
        row.push(Cell::number(o.backup_heat_kwh(), 0));
        row
    });
    Table {
        name: "fuel_use".into(),
        heading: "What does it use in a year?".into(),
        columns,
        rows: rows.collect(),
        remark: None,
    }
}

/// The place of the month that costs most, from 0, and what it costs; nothing without months.
pub fn dearest_month(o: &OptionResult) -> Option<(usize, f64)> {
    let months = (0..12_usize).map(|m| (m, o.ledger.sum(|p| p.month.map(usize::from) == Some(m + 1))));
    let has_months = o.ledger.postings.iter().any(|p| p.month.is_some());
    months.max_by(|a, b| a.1.total_cmp(&b.1)).filter(|_| has_months)
}

/// Cost by option and month; with stores the change of stock, which no month pays for, is a column of its own.
pub fn monthly_cost(c: &Comparison) -> Table {
    let stored = c.options.iter().any(|o| !o.stores.is_empty());
    let mut columns = vec![Column::words("Option", "option")];
    columns.extend(wording::MONTHS.iter().map(|m| Column::numbers(*m, format!("{}_cost", m.to_lowercase()))));
    columns.extend(stored.then(|| Column::numbers("Stock", "stock_change_cost")));
    let rows = c.options.iter().map(|o| {
        let mut row = vec![Cell::text(&o.design.name)];
        row.extend((1..=12).map(|m| amount(c, o.ledger.sum(|p| p.month == Some(m)))));
        row.extend(stored.then(|| amount(c, o.ledger.sum(|p| p.month.is_none()))));
        row
    });
    let rows = rows.collect();
    let remark =
        "What is paid in each month. Stock: fuel that the year took out of a store (or, below 0, put \
                  into it), which no month pays for."
            .to_owned();
    let remark = stored.then_some(remark);
    Table { name: "monthly_cost".into(), heading: "Cost by month".into(), columns, rows, remark }
}

/// Every posting of every option.
pub fn postings(c: &Comparison) -> Table {
    let columns = vec![
        Column::words("Option", "option"),
        Column::words("Month", "month"),
        Column::words("Use", "end_use"),
        Column::words("Fuel", "fuel"),
        Column::words("Meter", "meter"),
        Column::numbers("Quantity", "quantity"),
        Column::words("Unit", "unit"),
        Column::numbers("Price", "price_per_unit"),
        Column::numbers("Amount", "amount"),
        Column::words("Reason", "reason"),
    ];
    let rows = c.options.iter().flat_map(|o| o.ledger.postings.iter().map(|p| posting_row(c, o, p)));
    let rows = rows.collect();
    Table { name: "postings".into(), heading: "Every posting".into(), columns, rows, remark: None }
}

fn posting_row(c: &Comparison, o: &OptionResult, p: &Posting) -> Vec<Cell> {
    let fuel = c.fuels.get(p.fuel);
    let month = p.month.and_then(|m| wording::MONTHS.get(usize::from(m).checked_sub(1)?));
    vec![
        Cell::text(&o.design.name),
        month.map_or(Cell::Missing, |m| Cell::text(*m)),
        Cell::text(wording::end_use(p.end_use)),
        Cell::text(fuel.map_or("", |f| &f.name)),
        Cell::text(bill_words::meter(p)),
        Cell::number(p.quantity, 2),
        Cell::text(bill_words::unit(c, p)),
        Cell::number(p.price, 4),
        Cell::number(p.amount, 2),
        Cell::text(bill_words::line(c, p)),
    ]
}
