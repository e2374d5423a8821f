//! Where everything stands, so that formulas of one sheet find the cells of another.
//!
//! Rows and columns count from 0, as the writer of sheets counts. Start at [`Layout`].

use crate::comparison::Comparison;
use crate::fuel::FuelId;
use crate::study::{OptionLines, PriceLines};
use rust_xlsxwriter::{ColNum, RowNum, utility};
use std::ops::Range;

/// The row of the first option on the sheet of prices.
pub(super) const FIRST_OPTION: RowNum = 4;
/// Columns of the sheet of prices: as run, and at the prices that are typed.
pub(super) const AS_RUN: ColNum = 2;
/// Where prices are typed, and what options cost at them.
pub(super) const NOW: ColNum = 3;
/// The first column of costs by fuel.
pub(super) const FIRST_FUEL: ColNum = 5;
/// The column of amounts on the sheet of costs.
pub(super) const AMOUNT: ColNum = 8;

/// Rows of the sheets.
pub(super) struct Layout {
    /// The row of the first price.
    pub(super) first_price: RowNum,
    /// Prices.
    pub(super) prices: RowNum,
    /// The fuels that some option pays for, in their columns' order.
    pub(super) fuels: Vec<FuelId>,
    /// Where each option's costs stand.
    pub(super) blocks: Vec<Block>,
}

/// One option's rows on the sheet of costs.
pub(super) struct Block {
    /// The row of its first line.
    pub(super) first: RowNum,
    /// The row of its total.
    pub(super) total: RowNum,
    /// Rows of each fuel.
    pub(super) by_fuel: Vec<(FuelId, Range<RowNum>)>,
}

/// The row that comes so many after another.
pub(super) fn after(row: RowNum, count: usize) -> RowNum {
    row.saturating_add(RowNum::try_from(count).unwrap_or(RowNum::MAX))
}

impl Layout {
    pub(super) fn new(c: &Comparison, lines: &PriceLines) -> Self {
        let mut first = 2;
        let mut blocks = Vec::new();
        for option in &lines.options {
            let block = Block::new(first, option);
            first = block.total + 2;
            blocks.push(block);
        }
        let pays = |id: &FuelId| blocks.iter().any(|block| block.by_fuel.iter().any(|(fuel, _)| fuel == id));
        Self {
            first_price: after(FIRST_OPTION, c.options.len()) + 2,
            prices: after(0, lines.prices.len()),
            fuels: c.fuels.iter().map(|(id, _)| id).filter(pays).collect(),
            blocks,
        }
    }

    /// The cell where a price is typed, seen from any sheet.
    pub(super) fn price(&self, place: usize) -> String {
        format!("Prices!{}", utility::row_col_to_cell_absolute(after(self.first_price, place), NOW))
    }

    /// The cell that counts the prices that were changed.
    pub(super) fn changed(&self) -> (RowNum, ColNum) {
        (self.first_price + self.prices, NOW)
    }

    /// The same, seen from any sheet.
    pub(super) fn changed_cell(&self) -> String {
        let (row, column) = self.changed();
        format!("Prices!{}", utility::row_col_to_cell_absolute(row, column))
    }
}

impl Block {
    fn new(first: RowNum, option: &OptionLines) -> Self {
        let fuels: Vec<FuelId> = match option {
            OptionLines::On(lines) => lines.iter().map(|line| line.fuel).collect(),
            OptionLines::Off(_, by_fuel) => by_fuel.iter().map(|(fuel, _)| *fuel).collect(),
        };
        let mut by_fuel: Vec<(FuelId, Range<RowNum>)> = Vec::new();
        for (place, fuel) in fuels.iter().enumerate() {
            let row = after(first, place);
            match by_fuel.last_mut().filter(|(last, _)| last == fuel) {
                Some((_, rows)) => rows.end = row + 1,
                None => by_fuel.push((*fuel, row..row + 1)),
            }
        }
        Self { first, total: after(first, fuels.len()), by_fuel }
    }

    /// What a fuel costs on the sheet of costs, as a formula's text; nothing where it costs nothing.
    pub(super) fn sum_of(&self, fuel: FuelId) -> Option<String> {
        let rows = self.by_fuel.iter().filter(|(id, _)| *id == fuel).map(|(_, rows)| rows);
        let ranges: Vec<String> = rows
            .map(|rows| format!("Costs!{}", utility::cell_range(rows.start, AMOUNT, rows.end - 1, AMOUNT)))
            .collect();
        (!ranges.is_empty()).then(|| format!("=SUM({})", ranges.join(",")))
    }

    /// The option's total, seen from any sheet.
    pub(super) fn total_cell(&self) -> String {
        format!("Costs!{}", utility::row_col_to_cell(self.total, AMOUNT))
    }
}
