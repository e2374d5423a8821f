//! A comparison into a spreadsheet whose price cells are live: every cost is a formula on them.
//!
//! Cells hold what was computed elsewhere; arithmetic stands in formulas only. An option whose cost does
//! not follow from prices alone says so and follows none. Start at [`spreadsheet`].

mod style;
mod words;
mod layout;
mod prices;
mod costs;
mod years;
mod texts;

use super::model::Report;
use crate::comparison::{Comparison, PaperSize};
use crate::problem::Problem;
use crate::study::PriceLines;
use layout::Layout;
use rust_xlsxwriter::{ColNum, DocProperties, ExcelDateTime, Format, RowNum, Workbook, Worksheet, XlsxError};
use style::Style;

/// What every sheet is made from.
struct Book<'a> {
    c: &'a Comparison,
    report: &'a Report,
    lines: &'a PriceLines,
    /// What each line comes to at the job's own prices, one list an option.
    amounts: Vec<Vec<f64>>,
    layout: Layout,
    style: Style,
}

/// Paper of North America, and of the rest of the world, as spreadsheets number them.
const LETTER: u8 = 1;
const A4: u8 = 9;

/// The spreadsheet as bytes, the same for the same comparison.
///
/// # Errors
/// More rows or sheets than a spreadsheet holds.
pub fn spreadsheet(c: &Comparison, report: &Report, lines: &PriceLines) -> Result<Vec<u8>, Problem> {
    made(c, report, lines).map_err(|e| Problem::new(format!("the spreadsheet cannot be made: {e}")))
}

fn made(c: &Comparison, report: &Report, lines: &PriceLines) -> Result<Vec<u8>, XlsxError> {
    let as_it_is = lines.as_it_is();
    let amounts = (0..c.options.len()).map(|i| lines.amounts(i, &as_it_is).unwrap_or_default()).collect();
    let layout = Layout::new(c, lines);
    let book = Book { c, report, lines, amounts, layout, style: Style::new(&c.currency) };
    let mut workbook = Workbook::new();
    // The clock would make two runs differ, so the date is one that nobody takes for that of the run.
    let date = ExcelDateTime::from_ymd(2000, 1, 1)?;
    let author = c.prepared_by.as_deref().unwrap_or_default();
    let about = DocProperties::new().set_title(&c.title).set_author(author).set_creation_datetime(&date);
    workbook.set_properties(&about);
    book.sheet(workbook.add_worksheet(), "Prices", Book::prices)?;
    book.sheet(workbook.add_worksheet(), "Costs", Book::costs)?;
    if let Some(lives) = &c.life_cycles {
        book.sheet(workbook.add_worksheet(), "Over the years", |book, sheet| book.years(sheet, lives))?;
    }
    book.sheet(workbook.add_worksheet(), "Warmth", Book::warmth)?;
    book.sheet(workbook.add_worksheet(), "Assumptions", Book::assumptions)?;
    book.sheet(workbook.add_worksheet(), "Cautions", Book::cautions)?;
    workbook.save_to_buffer()
}

impl Book<'_> {
    /// Sets a sheet up for screen and paper, then fills it.
    fn sheet(
        &self,
        sheet: &mut Worksheet,
        name: &str,
        fill: impl FnOnce(&Self, &mut Worksheet) -> Result<(), XlsxError>,
    ) -> Result<(), XlsxError> {
        sheet.set_name(name)?.set_screen_gridlines(false).set_landscape().set_print_fit_to_pages(1, 0);
        sheet.set_paper_size(match self.c.heading.paper_or(self.c.units) {
            PaperSize::Letter => LETTER,
            PaperSize::A4 => A4,
        });
        sheet.set_margins(0.6, 0.6, 0.7, 0.7, 0.3, 0.3);
        sheet.set_footer("&L&A&CAn estimate, not a quote&RPage &P of &N");
        fill(self, sheet)
    }

    /// A text over all columns up to `last`, which are so many characters wide, on as many lines as it
    /// takes: programs do not fit the height of merged cells themselves.
    fn across(
        &self,
        sheet: &mut Worksheet,
        row: RowNum,
        (last, wide): (ColNum, usize),
        text: &str,
        format: &Format,
    ) -> Result<(), XlsxError> {
        sheet.set_row_height(row, lines_high(text, wide))?;
        match last {
            0 => sheet.write_string_with_format(row, 0, self.text(text), format)?,
            last => sheet.merge_range(row, 0, row, last, &self.text(text), format)?,
        };
        Ok(())
    }

    /// A text as long as a cell can hold.
    fn text(&self, text: &str) -> String {
        text.chars().take(32_000).collect()
    }
}

/// The height of a text in a cell so many characters wide, in points; what is too high for a row is cut.
fn lines_high(text: &str, wide: usize) -> f64 {
    let lines = text.chars().count().div_ceil(wide.max(1)).clamp(1, 25);
    15.0 * lines as f64
}
