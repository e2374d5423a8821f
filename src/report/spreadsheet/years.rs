//! The sheet over the years: what it costs to install, upkeep, parts bought anew, and bills that follow
//! the prices.
//!
//! Start at `Book::years`.

use super::layout::{FIRST_FUEL, FIRST_OPTION, after};
use super::{Book, words};
use crate::comparison::LifeCycles;
use crate::report::figures::grouped;
use crate::report::life_cycle::{Row, rows};
use rust_xlsxwriter::{ColNum, RowNum, Worksheet, XlsxError, utility};

/// The row of the first fuel's factor.
const FIRST_FACTOR: RowNum = 3;
/// The column of the factors.
const FACTOR: ColNum = 2;
const INTEREST: ColNum = 3;
const BILLS: ColNum = 4;
const ANEW: ColNum = 6;
const ALL: ColNum = 7;

impl Book<'_> {
    pub(super) fn years(&self, sheet: &mut Worksheet, lives: &LifeCycles) -> Result<(), XlsxError> {
        let (style, terms) = (&self.style, &lives.economics.terms);
        for (column, width) in [34.0, 15.0, 15.0, 15.0, 17.0, 15.0, 15.0, 17.0, 17.0].into_iter().enumerate()
        {
            sheet.set_column_width(column as ColNum, width)?;
        }
        let title = format!("What each option costs over {} years, in money of today", terms.years);
        sheet.write_string_with_format(0, 0, title, &style.title)?;
        let rate = format!(
            "Later money is discounted at {} % a year above inflation; incentives of the job are counted.",
            grouped(100.0 * terms.discount_rate, 1)
        );
        sheet.write_string_with_format(1, 0, rate, &style.quiet)?;
        self.factors(sheet, lives)?;
        let heads_at = after(FIRST_FACTOR, self.layout.fuels.len()) + 1;
        self.year_heads(sheet, heads_at)?;
        for (place, row) in rows(self.c, lives).enumerate() {
            self.year_row(sheet, after(heads_at, place + 1), row, lives)?;
        }
        let last = after(heads_at, rows(self.c, lives).count()) + 2;
        let remarks = [
            "Bills: what each fuel costs in a year on the sheet Prices, times the worth of its years.",
            "Bought anew: what wears out and is bought again, less what is left in it at the end.",
            "What it costs to install, interest, upkeep and parts follow no price here.",
        ];
        for (place, remark) in remarks.into_iter().enumerate() {
            self.across(sheet, after(last, place), (ALL + 1, 150), remark, &style.remark)?;
        }
        sheet.set_freeze_panes(heads_at + 1, 1)?.set_repeat_rows(heads_at, heads_at)?;
        Ok(())
    }

    /// What 1 a year is worth over the years, fuel by fuel.
    fn factors(&self, sheet: &mut Worksheet, lives: &LifeCycles) -> Result<(), XlsxError> {
        let (style, economics) = (&self.style, &lives.economics);
        sheet.set_row_height(FIRST_FACTOR - 1, 34.0)?;
        let heads = ["Fuel", "Price rises, % a year", "1 a year is worth"];
        for (column, head) in heads.into_iter().enumerate() {
            let format = if column == 0 { &style.head } else { &style.head_right };
            sheet.write_string_with_format(FIRST_FACTOR - 1, column as ColNum, head, format)?;
        }
        for (place, fuel) in self.layout.fuels.iter().enumerate() {
            let (row, rises) = (after(FIRST_FACTOR, place), economics.escalation_of(*fuel));
            sheet.write_string_with_format(row, 0, words::fuel(self.c, *fuel, false), &style.words)?;
            sheet.write_number_with_format(row, 1, rises, &style.of("0.00%"))?;
            let worth = economics.terms.worth_of_years(rises);
            sheet.write_number_with_format(row, FACTOR, worth, &style.number(4))?;
        }
        Ok(())
    }

    fn year_heads(&self, sheet: &mut Worksheet, row: RowNum) -> Result<(), XlsxError> {
        let heads =
            ["Installed", "Incentives", "By loan", "Bills", "Upkeep", "Bought anew", "All", "All, as run"];
        sheet.write_string_with_format(row, 0, "Option", &self.style.head)?;
        for (column, head) in (1..).zip(heads) {
            let head = format!("{head}, {}", self.c.currency);
            sheet.write_string_with_format(row, column, head, &self.style.head_right)?;
        }
        Ok(())
    }

    fn year_row(
        &self,
        sheet: &mut Worksheet,
        row: RowNum,
        (name, place, option): Row<'_>,
        lives: &LifeCycles,
    ) -> Result<(), XlsxError> {
        let Some(project) = lives.project(place) else { return Ok(()) };
        let (life, money) = (&option.with_incentives.life, self.style.money());
        sheet.write_string_with_format(row, 0, self.text(name), &self.style.words)?;
        let fixed = [
            (1, project.installed()),
            (2, -project.given()),
            (INTEREST, life.loan_interest),
            (BILLS + 1, life.upkeep),
            (ANEW, life.replacements - life.residual),
            (ALL + 1, life.total()),
        ];
        for (column, value) in fixed {
            sheet.write_number_with_format(row, column, value, &money)?;
        }
        let of_fuel = |i: usize| {
            let cost = utility::row_col_to_cell(after(FIRST_OPTION, place), FIRST_FUEL + i as ColNum);
            let worth = utility::row_col_to_cell_absolute(after(FIRST_FACTOR, i), FACTOR);
            format!("Prices!{cost}*{worth}")
        };
        let bills: Vec<String> = (0..self.layout.fuels.len()).map(of_fuel).collect();
        let bills = self.or_run_again(place, &format!("={}", bills.join("+")), life.bills);
        sheet.write_formula_with_format(row, BILLS, bills, &money)?;
        let sum = format!("=SUM({})", utility::cell_range(row, 1, row, ANEW));
        let all = self.or_run_again(place, &sum, life.total());
        sheet.write_formula_with_format(row, ALL, all, &money)?;
        Ok(())
    }
}
