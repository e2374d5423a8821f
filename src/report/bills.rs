//! Bills as a supplier writes them: the lines of one month for people, those of every month for files.
//!
//! Every line is a sum of postings. Start at [`one_month`].

use super::figures::{MONTHS_IN_FULL, grouped, money_exact};
use super::model::{Cell, Column, Table};
use super::money::dearest_month;
use super::{bill_words, wording};
use crate::comparison::{Comparison, OptionResult};
use crate::ledger::{LineOfBill, Posting, Reason};

/// The month of bills that people are shown.
pub struct ShownBill<'a> {
    /// The option.
    pub option: &'a OptionResult,
    /// Its place in the year, from 0; nothing where the weather has no months.
    pub month: Option<usize>,
    /// The lines.
    pub lines: Vec<LineOfBill>,
}

impl ShownBill<'_> {
    /// The month, or that it is a year.
    pub fn month_words(&self) -> &'static str {
        self.month.and_then(|m| MONTHS_IN_FULL.get(m)).copied().unwrap_or("the year")
    }
}

/// The dearest month of the option that costs least of those that keep the house warm, else of all.
pub fn shown(c: &Comparison) -> Option<ShownBill<'_>> {
    let by_cost = |a: &&OptionResult, b: &&OptionResult| a.yearly_cost().total_cmp(&b.yearly_cost());
    let warm = c.options.iter().filter(|o| !o.goes_cold()).min_by(by_cost);
    let option = warm.or_else(|| c.options.iter().min_by(by_cost))?;
    let month = dearest_month(option).map(|(month, _)| month);
    let in_month = |line: &LineOfBill| line.whole.month.map(|m| usize::from(m) - 1) == month;
    let lines: Vec<_> = option.ledger.bills().into_iter().filter(in_month).collect();
    (!lines.is_empty()).then_some(ShownBill { option, month, lines })
}

/// The bills of the month that is shown.
pub fn one_month(c: &Comparison, shown: &ShownBill<'_>) -> Table {
    let mut rows: Vec<_> = shown.lines.iter().map(|line| row(c, line)).collect();
    let ledger = &shown.option.ledger;
    let in_month = |p: &Posting| p.month.map(|m| usize::from(m) - 1) == shown.month;
    let (whole, heating) = (ledger.sum(in_month), ledger.sum(|p| in_month(p) && p.end_use.is_heating()));
    let mut total = vec![Cell::text("Together"), Cell::text("")];
    total.extend([Cell::text(""), Cell::text(""), Cell::text(""), exact(c, whole), exact(c, heating)]);
    rows.push(total);
    Table {
        name: "bill".into(),
        heading: format!(
            "What is on the bills of {} with \u{201c}{}\u{201d}?",
            shown.month_words(),
            shown.option.design.name
        ),
        columns: columns(),
        rows,
        remark: Some(
            "Uses stack in order, heating last: each is charged the bill through it less the bill before it."
                .into(),
        ),
    }
}

/// The bills of every month of every option.
pub fn all(c: &Comparison) -> Table {
    let mut heads = vec![Column::words("Option", "option"), Column::words("Month", "month")];
    heads.extend(columns());
    let lines = c.options.iter().flat_map(|o| o.ledger.bills().into_iter().map(move |line| (o, line)));
    let rows = lines.map(|(o, line)| {
        let month = line.whole.month.and_then(|m| wording::MONTHS.get(usize::from(m).checked_sub(1)?));
        let mut cells = vec![Cell::text(&o.design.name)];
        cells.push(month.map_or(Cell::Missing, |m| Cell::text(*m)));
        cells.extend(row(c, &line));
        cells
    });
    let rows = rows.collect();
    Table { name: "bills".into(), heading: "Every bill".into(), columns: heads, rows, remark: None }
}

fn columns() -> Vec<Column> {
    vec![
        Column::words("Bill", "bill"),
        Column::words("Line", "line"),
        Column::numbers("Quantity", "quantity"),
        Column::words("", "unit"),
        Column::numbers("Price", "price_per_unit"),
        Column::numbers("Amount", "amount"),
        Column::numbers("Of it heating", "amount_for_heating"),
    ]
}

fn row(c: &Comparison, line: &LineOfBill) -> Vec<Cell> {
    let p = &line.whole;
    let monthly = matches!(p.reason, Reason::FixedCharge | Reason::Rent);
    let price = match bill_words::unit(c, p) == c.currency {
        true => Cell::Number { value: p.price, shown: format!("{} %", grouped(100.0 * p.price, 1)) },
        false => Cell::number(p.price, if monthly { 2 } else { 4 }),
    };
    vec![
        Cell::text(bill_words::bill(c, p)),
        Cell::text(bill_words::line(c, p)),
        Cell::number(p.quantity, if monthly { 0 } else { 1 }),
        Cell::text(bill_words::unit(c, p)),
        price,
        exact(c, p.amount),
        exact(c, line.heating()),
    ]
}

fn exact(c: &Comparison, amount: f64) -> Cell {
    Cell::Number { value: amount, shown: money_exact(&c.currency, amount) }
}
