//! The sheet of costs: every quantity times its price, option by option.
//!
//! Start at `Book::costs`.

use super::layout::{AMOUNT, Block, after};
use super::{Book, words};
use crate::study::OptionLines;
use crate::study::price_lines::{Line, LineOf};
use rust_xlsxwriter::{ColNum, Formula, RowNum, Worksheet, XlsxError, utility};

const QUANTITY: ColNum = 4;
const PRICE: ColNum = 6;
const TIMES: ColNum = 7;

/// Rows above, of whose amounts a share is taken, and what they come to.
struct Base {
    first: RowNum,
    last: RowNum,
    sum: f64,
}

impl Book<'_> {
    pub(super) fn costs(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        let heads = ["Option", "Fuel", "For", "At the price of", "Quantity", "Unit", "Price", "Times"];
        let amount = format!("Amount, {} a year", self.c.currency);
        let style = &self.style;
        let widths = [28.0, 24.0, 24.0, 34.0, 13.0, 9.0, 13.0, 9.0, 16.0];
        for (column, (head, width)) in heads.into_iter().chain([amount.as_str()]).zip(widths).enumerate() {
            let column = column as ColNum;
            let right = column >= QUANTITY && column != QUANTITY + 1;
            let format = match right {
                true => &style.head_right,
                false if column == QUANTITY + 1 => &style.head_beside,
                false => &style.head,
            };
            sheet.set_column_width(column, width)?;
            sheet.write_string_with_format(1, column, head, format)?;
        }
        let about =
            "Amount = quantity \u{d7} price \u{d7} times; prices and times are those on the sheet Prices";
        sheet.write_string_with_format(0, 0, about, &style.quiet)?;
        sheet.set_freeze_panes(2, 1)?.set_repeat_rows(1, 1)?;
        let options = self.c.options.iter().zip(&self.lines.options).zip(&self.layout.blocks);
        for (place, ((option, lines), block)) in options.enumerate() {
            let name = self.text(&option.design.name);
            match lines {
                OptionLines::On(lines) => self.option(sheet, (place, &name), lines, block)?,
                OptionLines::Off(why, by_fuel) => {
                    for ((fuel, amount), row) in by_fuel.iter().zip(block.first..) {
                        sheet.write_string_with_format(row, 0, &name, &style.words)?;
                        let fuel = words::fuel(self.c, *fuel, false);
                        sheet.write_string_with_format(row, 1, fuel, &style.words)?;
                        sheet.write_string_with_format(row, 2, words::no_longer(*why), &style.quiet)?;
                        sheet.write_number_with_format(row, AMOUNT, *amount, &style.money())?;
                    }
                }
            }
            self.total(sheet, &name, block, option.yearly_cost())?;
        }
        Ok(())
    }

    fn option(
        &self,
        sheet: &mut Worksheet,
        (place, name): (usize, &str),
        lines: &[Line],
        block: &Block,
    ) -> Result<(), XlsxError> {
        let amounts = self.amounts.get(place).map_or(&[][..], Vec::as_slice);
        for (i, (line, amount)) in lines.iter().zip(amounts).enumerate() {
            let same = |l: &&Line| (l.fuel, l.heating_meter) == (line.fuel, line.heating_meter);
            let account = after(block.first, lines.iter().take_while(|l| !same(l)).count());
            let energy: Vec<RowNum> = lines
                .iter()
                .zip(block.first..)
                .filter(|(l, _)| same(l) && l.what.is_energy())
                .map(|(_, row)| row)
                .collect();
            let row = after(block.first, i);
            self.words_of(sheet, row, name, line)?;
            let rows = match line.what {
                LineOf::RiderShare => energy.first().zip(energy.last()).map(|(first, last)| (*first, *last)),
                LineOf::Tax => Some((account, row - 1)),
                _ => None,
            };
            let base = rows.map(|(first, last)| {
                let within =
                    amounts.iter().zip(block.first..).filter(|(_, row)| (first..=last).contains(row));
                Base { first, last, sum: within.map(|(amount, _)| amount).sum() }
            });
            self.figures_of(sheet, row, line, *amount, base)?;
        }
        Ok(())
    }

    fn words_of(&self, sheet: &mut Worksheet, row: RowNum, name: &str, line: &Line) -> Result<(), XlsxError> {
        let (c, style) = (self.c, &self.style);
        let places = line.price.into_iter().chain(line.spikes.iter().copied());
        let priced = places.filter_map(|place| self.lines.prices.get(place));
        let at: Vec<String> = priced.map(|priced| words::price_of(c, priced)).collect();
        sheet.write_string_with_format(row, 0, name, &style.words)?;
        sheet.write_string_with_format(
            row,
            1,
            words::fuel(c, line.fuel, line.heating_meter),
            &style.words,
        )?;
        sheet.write_string_with_format(row, 2, words::line_for(line), &style.words)?;
        sheet.write_string_with_format(row, 3, self.text(&at.join("; ")), &style.wrapped)?;
        sheet.write_string_with_format(row, QUANTITY + 1, words::line_unit(c, line), &style.beside)?;
        Ok(())
    }

    /// Quantity, price and times into the amount; `base` is what a share is taken of.
    fn figures_of(
        &self,
        sheet: &mut Worksheet,
        row: RowNum,
        line: &Line,
        amount: f64,
        base: Option<Base>,
    ) -> Result<(), XlsxError> {
        let style = &self.style;
        let money = style.money();
        let Some(price) = line.price else {
            sheet.write_number_with_format(row, QUANTITY, line.quantity, &money)?;
            sheet.write_number_with_format(row, AMOUNT, amount, &money)?;
            return Ok(());
        };
        match base {
            Some(Base { first, last, sum: of_base }) => {
                let sum = format!("=SUM({})", utility::cell_range(first, AMOUNT, last, AMOUNT));
                let sum = Formula::new(sum).set_result(of_base.to_string());
                sheet.write_formula_with_format(row, QUANTITY, sum, &money)?;
            }
            None => {
                let decimals = if matches!(line.what, LineOf::Due(_)) { 0 } else { 1 };
                sheet.write_number_with_format(row, QUANTITY, line.quantity, &style.number(decimals))?;
            }
        }
        let value = |place: usize| self.lines.prices.get(place).map_or(1.0, |priced| priced.value);
        let form = self.lines.prices.get(price).map_or_else(String::new, |priced| self.form(priced));
        let of_price =
            Formula::new(format!("={}", self.layout.price(price))).set_result(value(price).to_string());
        sheet.write_formula_with_format(row, PRICE, of_price, &style.of(&form))?;
        let cells: Vec<String> = line.spikes.iter().map(|place| self.layout.price(*place)).collect();
        let times: f64 = line.spikes.iter().map(|place| value(*place)).product();
        if cells.is_empty() {
            sheet.write_number_with_format(row, TIMES, 1.0, &style.number(2))?;
        } else {
            let times = Formula::new(format!("={}", cells.join("*"))).set_result(times.to_string());
            sheet.write_formula_with_format(row, TIMES, times, &style.number(2))?;
        }
        let cell = |column| utility::row_col_to_cell(row, column);
        let product = format!("={}*{}*{}", cell(QUANTITY), cell(PRICE), cell(TIMES));
        sheet.write_formula_with_format(
            row,
            AMOUNT,
            Formula::new(product).set_result(amount.to_string()),
            &money,
        )?;
        Ok(())
    }

    fn total(&self, sheet: &mut Worksheet, name: &str, block: &Block, cost: f64) -> Result<(), XlsxError> {
        let style = &self.style;
        for column in 1..AMOUNT {
            let text = if column == 1 { "together" } else { "" };
            sheet.write_string_with_format(block.total, column, text, &style.total_words)?;
        }
        sheet.write_string_with_format(block.total, 0, name, &style.total_words)?;
        let sum = match block.total > block.first {
            true => format!("=SUM({})", utility::cell_range(block.first, AMOUNT, block.total - 1, AMOUNT)),
            false => "=0".to_owned(),
        };
        let sum = Formula::new(sum).set_result(cost.to_string());
        sheet.write_formula_with_format(block.total, AMOUNT, sum, &style.total())?;
        Ok(())
    }
}
