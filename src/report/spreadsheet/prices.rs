//! The sheet of prices: what each option costs, then every price to change.
//!
//! Start at `Book::prices`.

use super::layout::{AS_RUN, FIRST_FUEL, FIRST_OPTION, NOW, after};
use super::{Book, words};
use crate::comparison::{OptionResult, Warmth};
use crate::report::build;
use crate::report::figures::{Measure, grouped};
use crate::study::OptionLines;
use crate::study::price_lines::{PriceOf, Priced};
use rust_xlsxwriter::{
    ColNum, ConditionalFormatFormula, DataValidation, DataValidationRule, Format, Formula, RowNum, Worksheet,
    XlsxError, utility,
};

/// More options than this would leave no room to scroll under them.
const MOST_FROZEN: usize = 10;

impl Book<'_> {
    pub(super) fn prices(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        for (column, width) in [32.0, 36.0, 16.0, 18.0, 18.0].into_iter().enumerate() {
            sheet.set_column_width(column as ColNum, width)?;
        }
        for column in 0..self.layout.fuels.len() {
            sheet.set_column_width(FIRST_FUEL + column as ColNum, 18.0)?;
        }
        let (c, style) = (self.c, &self.style);
        sheet.write_string_with_format(0, 0, self.text(&c.title), &style.title)?;
        let weather = build::weather_words(c, Measure(c.units));
        let about = self.text(&format!("{} \u{b7} {weather}", c.site.name));
        sheet.write_string_with_format(1, 0, about, &style.quiet)?;
        let how = "Change a price on yellow: every cost is summed anew. A changed price turns orange.";
        sheet.write_string_with_format(2, 0, how, &style.quiet)?;
        self.option_heads(sheet)?;
        for (place, option) in c.options.iter().enumerate() {
            self.option_row(sheet, place, option)?;
        }
        self.price_rows(sheet)?;
        self.remarks(sheet)?;
        let frozen = if c.options.len() > MOST_FROZEN { 0 } else { c.options.len() };
        sheet.set_freeze_panes(after(FIRST_OPTION, frozen), 0)?;
        Ok(())
    }

    fn option_heads(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        let (row, style) = (FIRST_OPTION - 1, &self.style);
        sheet.set_row_height(row, 34.0)?;
        sheet.write_string_with_format(row, 0, "Option", &style.head)?;
        sheet.write_string_with_format(row, 1, "Keeps the house warm?", &style.head)?;
        let currency = &self.c.currency;
        let heads = ["As run", "At these prices", "Change"].map(|head| format!("{head}, {currency} a year"));
        for (column, head) in heads.into_iter().enumerate() {
            sheet.write_string_with_format(row, AS_RUN + column as ColNum, head, &style.head_right)?;
        }
        for (column, fuel) in self.layout.fuels.iter().enumerate() {
            let head = format!("{}, {currency} a year", words::fuel(self.c, *fuel, false));
            sheet.write_string_with_format(row, FIRST_FUEL + column as ColNum, head, &style.head_right)?;
        }
        Ok(())
    }

    fn option_row(&self, sheet: &mut Worksheet, place: usize, o: &OptionResult) -> Result<(), XlsxError> {
        let (row, style) = (after(FIRST_OPTION, place), &self.style);
        let money = style.money();
        let Some(block) = self.layout.blocks.get(place) else { return Ok(()) };
        sheet.write_string_with_format(row, 0, self.text(&o.design.name), &style.words)?;
        let hours = grouped(o.hours_not_kept_warm() as f64, 0);
        let warm = match o.warmth() {
            Warmth::Kept => "yes".to_owned(),
            Warmth::SlowToRecover => format!("slow after its set-back, {hours} hours"),
            Warmth::DryWithoutSetBacks => {
                format!("short after its set-back, {hours} hours; out of fuel without it")
            }
            Warmth::GoesCold => format!("COLD for {hours} hours"),
        };
        sheet.write_string_with_format(row, 1, warm, &style.words)?;
        sheet.write_number_with_format(row, AS_RUN, o.yearly_cost(), &money)?;
        let now = self.or_run_again(place, &format!("={}", block.total_cell()), o.yearly_cost());
        sheet.write_formula_with_format(row, NOW, now, &money)?;
        let (run, now) = (utility::row_col_to_cell(row, AS_RUN), utility::row_col_to_cell(row, NOW));
        let change = Formula::new(format!("=IF(ISNUMBER({now}),{now}-{run},\"\")")).set_result("0");
        sheet.write_formula_with_format(row, NOW + 1, change, &money)?;
        for (column, fuel) in self.layout.fuels.iter().enumerate() {
            let cell = FIRST_FUEL + column as ColNum;
            match block.sum_of(*fuel) {
                Some(sum) => {
                    let cost = o.ledger.sum(|p| p.fuel == *fuel);
                    sheet.write_formula_with_format(
                        row,
                        cell,
                        self.or_run_again(place, &sum, cost),
                        &money,
                    )?
                }
                None => sheet.write_number_with_format(row, cell, 0.0, &money)?,
            };
        }
        Ok(())
    }

    /// A formula that gives `result` at the job's own prices; for an option that follows no price, only
    /// as long as none was changed.
    pub(super) fn or_run_again(&self, place: usize, formula: &str, result: f64) -> Formula {
        let formula = match self.lines.options.get(place) {
            Some(OptionLines::Off(..)) => {
                let value = formula.trim_start_matches('=');
                format!("=IF({}=0,{value},\"run again\")", self.layout.changed_cell())
            }
            _ => formula.to_owned(),
        };
        Formula::new(formula).set_result(result.to_string())
    }

    fn price_rows(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        let (first, style) = (self.layout.first_price, &self.style);
        let heads = ["Fuel", "Price of", "As run", "At these prices", "Unit", "Who says so"];
        for (column, head) in heads.into_iter().enumerate() {
            let column = column as ColNum;
            let format = match column {
                AS_RUN | NOW => &style.head_right,
                _ if column > NOW => &style.head_beside,
                _ => &style.head,
            };
            sheet.write_string_with_format(first - 1, column, head, format)?;
        }
        for column in 1..self.layout.fuels.len() {
            sheet.write_string_with_format(first - 1, FIRST_FUEL + column as ColNum, "", &style.head)?;
        }
        for (place, priced) in self.lines.prices.iter().enumerate() {
            self.price_row(sheet, after(first, place), priced)?;
        }
        let (row, column) = self.layout.changed();
        sheet.write_string_with_format(row, 0, "Prices changed", &style.total_words)?;
        sheet.write_string_with_format(row, 1, "", &style.total_words)?;
        sheet.write_string_with_format(row, AS_RUN, "", &style.total_words)?;
        if self.layout.prices == 0 {
            sheet.write_number_with_format(row, column, 0.0, &style.total_words)?;
            return Ok(());
        }
        let range = |column| utility::cell_range(first, column, row - 1, column);
        let count = format!("=SUMPRODUCT(--({}<>{}))", range(NOW), range(AS_RUN));
        let count = Formula::new(count).set_result("0");
        sheet.write_formula_with_format(row, column, count, &style.total_words)?;
        self.checked(sheet, first, row - 1)
    }

    fn price_row(&self, sheet: &mut Worksheet, row: RowNum, priced: &Priced) -> Result<(), XlsxError> {
        let (c, style) = (self.c, &self.style);
        let form = self.form(priced);
        let fuel = words::fuel(c, priced.fuel, priced.heating_meter);
        sheet.write_string_with_format(row, 0, self.text(&fuel), &style.words)?;
        sheet.write_string_with_format(row, 1, self.text(&words::price_of(c, priced)), &style.wrapped)?;
        let (as_run, input): (Format, Format) = (style.of(&form), style.input(&form));
        let value = typed(priced.value);
        sheet.write_number_with_format(row, AS_RUN, value, &as_run)?;
        sheet.write_number_with_format(row, NOW, value, &input)?;
        sheet.write_string_with_format(row, NOW + 1, words::price_unit(c, priced), &style.beside)?;
        sheet.write_string_with_format(
            row,
            FIRST_FUEL,
            self.text(&words::said_by(c, priced)),
            &style.beside,
        )?;
        Ok(())
    }

    /// How a price is written.
    pub(super) fn form(&self, priced: &Priced) -> String {
        match priced.of {
            _ if words::is_share(self.c, priced) => "0.00%".to_owned(),
            PriceOf::Fixed | PriceOf::Rent => self.style.amount("#,##0.00"),
            PriceOf::Spike(_) => "0.00".to_owned(),
            _ => self.style.amount("#,##0.0000"),
        }
    }

    /// Only numbers can be typed; a changed price is marked.
    fn checked(&self, sheet: &mut Worksheet, first: RowNum, last: RowNum) -> Result<(), XlsxError> {
        let numbers = DataValidation::new()
            .allow_decimal_number(DataValidationRule::Between(-1.0e6, 1.0e6))
            .set_error_title("A number, please")?
            .set_error_message("A price is a number in the unit that stands beside it.")?;
        sheet.add_data_validation(first, NOW, last, NOW, &numbers)?;
        let (now, run) = (utility::row_col_to_cell(first, NOW), utility::row_col_to_cell(first, AS_RUN));
        let differs = format!("={now}<>{run}");
        let marked =
            ConditionalFormatFormula::new().set_rule(differs.as_str()).set_format(&self.style.changed);
        sheet.add_conditional_format(first, NOW, last, NOW, &marked)?;
        Ok(())
    }

    fn remarks(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        let mut remarks = vec![
            "What is used stays as the hours of the year gave it: prices move no machine, no room, no truck."
                .to_owned(),
        ];
        let stored = self.c.options.iter().any(|option| !option.stores.is_empty());
        remarks.extend(stored.then(|| {
            "Fuel from a tank is charged at the prices of the days of the truck, on the mean of how full the \
             tank may be when the year begins."
                .to_owned()
        }));
        for (option, lines) in self.c.options.iter().zip(&self.lines.options) {
            if let OptionLines::Off(why, _) = lines {
                let name = &option.design.name;
                remarks
                    .push(format!("\u{201c}{name}\u{201d} {}. Run the job again.", words::no_longer(*why)));
            }
        }
        remarks.push("An estimate, not a quote; local codes and a licensed contractor decide.".into());
        let first = self.layout.changed().0 + 2;
        for (place, remark) in remarks.iter().enumerate() {
            self.across(sheet, after(first, place), (NOW + 1, 125), remark, &self.style.remark)?;
        }
        Ok(())
    }
}

/// A price as it was typed: what the way through kWh left beyond the tenth decimal is rounded away.
fn typed(value: f64) -> f64 {
    (value * 1e10).round() / 1e10
}
