//! The sheets of warmth, of assumptions and sources, and of cautions: what is read, not summed.
//!
//! Start at `Book::warmth`.

use super::layout::after;
use super::{Book, lines_high, words};
use crate::report::model::{Align, Cell, Table};
use crate::report::wording;
use crate::study::price_lines::PriceOf;
use rust_xlsxwriter::{ColNum, RowNum, Worksheet, XlsxError};

impl Book<'_> {
    /// Tables on warmth as the report has them, one below the other.
    pub(super) fn warmth(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        let (style, mut row) = (&self.style, 0);
        let shown = ["warmth", "cold_night", "worst_failures", "power_out"];
        let tables = self.report.tables.iter().filter(|table| shown.contains(&table.name.as_str()));
        sheet.set_column_width(0, 30.0)?;
        for column in 1..12 {
            sheet.set_column_width(column, 14.0)?;
        }
        for table in tables {
            sheet.write_string_with_format(row, 0, self.text(&table.heading), &style.title)?;
            row = self.table(sheet, row + 1, table)?;
            if let Some(remark) = &table.remark {
                self.across(sheet, row, (7, 125), remark, &style.remark)?;
            }
            row += 2;
        }
        Ok(())
    }

    /// A table as it stands; gives the row after it.
    fn table(&self, sheet: &mut Worksheet, first: RowNum, table: &Table) -> Result<RowNum, XlsxError> {
        let style = &self.style;
        sheet.set_row_height(first, 48.0)?;
        for (column, head) in table.columns.iter().enumerate() {
            let format = if head.align == Align::Left { &style.head } else { &style.head_right };
            sheet.write_string_with_format(first, column as ColNum, self.text(&head.head), format)?;
        }
        for (place, cells) in table.rows.iter().enumerate() {
            let row = after(first, place + 1);
            let longest = cells.iter().skip(1).map(|cell| cell.shown().chars().count()).max().unwrap_or(1);
            sheet.set_row_height(row, 15.0 * longest.div_ceil(13).clamp(1, 4) as f64)?;
            for (column, cell) in cells.iter().enumerate() {
                let column = column as ColNum;
                match cell {
                    Cell::Text(text) => {
                        sheet.write_string_with_format(row, column, self.text(text), &style.wrapped)?
                    }
                    Cell::Number { value, shown } => {
                        let decimals = shown.split_once('.').map_or(0, |(_, decimals)| decimals.len());
                        sheet.write_number_with_format(row, column, *value, &style.number(decimals))?
                    }
                    Cell::Missing => {
                        sheet.write_string_with_format(row, column, cell.shown(), &style.quiet)?
                    }
                };
            }
        }
        Ok(after(first, table.rows.len() + 1))
    }

    pub(super) fn assumptions(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        let style = &self.style;
        for (column, width) in [46.0, 30.0, 80.0].into_iter().enumerate() {
            sheet.set_column_width(column as ColNum, width)?;
        }
        for (column, head) in ["Key in the job, or price", "Value", "Source"].into_iter().enumerate() {
            sheet.write_string_with_format(0, column as ColNum, head, &style.head)?;
        }
        sheet.set_freeze_panes(1, 0)?.set_repeat_rows(0, 0)?;
        let assumed = self.c.assumptions.0.iter();
        let assumed = assumed.map(|a| [a.key.clone(), a.value.clone(), wording::source(&a.source)]);
        let energy = self.lines.prices.iter().filter(|p| matches!(p.of, PriceOf::Rate(_)));
        let mut prices: Vec<[String; 3]> = Vec::new();
        for priced in energy {
            let name = format!("price of {}", words::fuel(self.c, priced.fuel, priced.heating_meter));
            let row = [name, "see the sheet Prices".into(), words::said_by(self.c, priced)];
            if !prices.contains(&row) {
                prices.push(row);
            }
        }
        for (place, cells) in prices.into_iter().chain(assumed).enumerate() {
            sheet.set_row_height(after(1, place), lines_high(cells.last().map_or("", String::as_str), 85))?;
            for (column, text) in cells.iter().enumerate() {
                let row = after(1, place);
                sheet.write_string_with_format(row, column as ColNum, self.text(text), &style.wrapped)?;
            }
        }
        Ok(())
    }

    pub(super) fn cautions(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        let (style, mut row) = (&self.style, 0);
        sheet.set_column_width(0, 110.0)?;
        let (verdict, foot) = (self.report.verdict.clone(), vec![self.report.foot.clone()]);
        let lists = [
            ("Cautions", &self.report.cautions),
            ("The result as it was run", &verdict),
            ("Notes", &self.report.notes),
            ("Made by", &foot),
        ];
        for (head, list) in lists.into_iter().filter(|(_, list)| !list.is_empty()) {
            sheet.write_string_with_format(row, 0, head, &style.head)?;
            for text in list {
                row += 1;
                self.across(sheet, row, (0, 100), text, &style.wrapped)?;
            }
            row += 2;
        }
        Ok(())
    }
}
