//! The report as text for a terminal, 80 columns or what there is, plain when piped.
//!
//! Start at [`render`].

use super::model::{Align, Column, Report, Table};
use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, LineStyle, TableStyle, Width};

/// Widest text for reading.
const WIDEST: u16 = 100;

/// Words the report in at most `width` columns.
pub fn render(report: &Report, width: u16) -> String {
    let width = width.clamp(40, WIDEST);
    let mut out = String::new();
    paragraph(&mut out, &report.title, "", width);
    for line in &report.about {
        paragraph(&mut out, line, "  ", width);
    }
    out.push('\n');
    for line in report.verdict.iter().chain(&report.tipping_price) {
        paragraph(&mut out, line, "", width);
    }
    for table in &report.tables {
        out.push('\n');
        out.push_str(&table_text(table, width));
    }
    section(&mut out, "Notes", &report.notes, width);
    section(&mut out, "Assumed, since the job does not say", &report.assumptions, width);
    section(&mut out, "Cautions", &report.cautions, width);
    out.push('\n');
    paragraph(&mut out, &report.foot, "", width);
    out
}

fn section(out: &mut String, heading: &str, lines: &[String], width: u16) {
    if lines.is_empty() {
        return;
    }
    out.push('\n');
    out.push_str(heading);
    out.push('\n');
    for line in lines {
        paragraph(out, line, "- ", width);
    }
}

fn table_text(table: &Table, width: u16) -> String {
    let mut out = String::new();
    paragraph(&mut out, &table.heading, "", width);
    for (place, part) in parts(table, width).iter().enumerate() {
        if place > 0 {
            out.push('\n');
        }
        out.push_str(&grid_text(part, width));
    }
    if let Some(remark) = &table.remark {
        paragraph(&mut out, remark, "", width);
    }
    out
}

/// A table that is too wide as several of about as many columns, each with the first one.
fn parts(table: &Table, width: u16) -> Vec<Table> {
    let of = |columns: &[usize]| {
        let columns: Vec<usize> = std::iter::once(0).chain(columns.iter().copied()).collect();
        Table {
            columns: columns.iter().filter_map(|i| table.columns.get(*i).cloned()).collect(),
            rows: table
                .rows
                .iter()
                .map(|r| columns.iter().filter_map(|i| r.get(*i).cloned()).collect())
                .collect(),
            ..table.clone()
        }
    };
    let fits = |part: &Table| {
        least_widths(part).iter().sum::<usize>() + 2 * part.columns.len() <= usize::from(width)
    };
    let others: Vec<usize> = (1..table.columns.len()).collect();
    let cut =
        |count: usize| -> Vec<Table> { others.chunks(others.len().div_ceil(count).max(1)).map(of).collect() };
    let count = (1..others.len()).find(|count| cut(*count).iter().all(fits));
    if others.is_empty() { vec![table.clone()] } else { cut(count.unwrap_or(others.len())) }
}

fn grid_text(table: &Table, width: u16) -> String {
    let mut grid = comfy_table::Table::new();
    // Whether this goes to a terminal is the caller's to know; the text is the same either way.
    grid.force_no_tty();
    grid.load_style(TableStyle::new().header_separator(LineStyle::none().fill('\u{2500}').junction(' ')));
    grid.set_content_arrangement(ContentArrangement::Dynamic).set_width(width);
    grid.set_header(table.columns.iter().map(|c| c.head.as_str()));
    for row in &table.rows {
        grid.add_row(row.iter().map(|cell| cell.shown()));
    }
    for (i, (column, wide)) in table.columns.iter().zip(widths(table, width)).enumerate() {
        let Some(shown) = grid.column_mut(i) else { continue };
        shown.set_padding((0, 1));
        shown.set_constraint(ColumnConstraint::Absolute(Width::Fixed(wide + 1)));
        if column.align == Align::Right {
            shown.set_cell_alignment(CellAlignment::Right);
        }
    }
    grid.to_string().lines().fold(String::new(), |text, line| text + line.trim_end() + "\n")
}

/// Columns of text for each column: numbers as wide as their longest figure or word of the head, the
/// rest shared among words, the first column first.
fn widths(table: &Table, width: u16) -> Vec<u16> {
    let mut least = least_widths(table);
    let wished = table.columns.iter().enumerate().map(|(i, column)| {
        let head = longest(&mut column.head.split(' '));
        // A head may take three lines or so.
        head.max(longest(&mut cells(table, i))).max(column.head.chars().count() / 3 + 2)
    });
    let mut left = usize::from(width).saturating_sub(2 * least.len() + least.iter().sum::<usize>());
    for (have, wish) in least.iter_mut().zip(wished) {
        let more = left.min(wish.saturating_sub(*have));
        *have += more;
        left -= more;
    }
    least.into_iter().map(|w| u16::try_from(w).unwrap_or(width)).collect()
}

/// The narrowest that each column may be: its longest word, or figure.
fn least_widths(table: &Table) -> Vec<usize> {
    let least = |(i, column): (usize, &Column)| {
        let whole = longest(&mut cells(table, i));
        let words = longest(&mut cells(table, i).flat_map(|c| c.split(' ')));
        longest(&mut column.head.split(' ')).max(if column.align == Align::Right { whole } else { words })
    };
    table.columns.iter().enumerate().map(least).collect()
}

fn longest(texts: &mut dyn Iterator<Item = &str>) -> usize {
    texts.map(|text| text.chars().count()).max().unwrap_or(0)
}

fn cells(table: &Table, column: usize) -> impl Iterator<Item = &str> {
    table.rows.iter().filter_map(move |row| row.get(column)).map(|cell| cell.shown())
}

/// Wraps at words; the first line begins with `lead`, the others are set in by as much.
fn paragraph(out: &mut String, text: &str, lead: &str, width: u16) {
    let room = usize::from(width).saturating_sub(lead.chars().count()).max(20);
    let mut line = String::new();
    let mut first = true;
    let mut flush = |line: &mut String| {
        let indent = if first { lead.to_owned() } else { " ".repeat(lead.chars().count()) };
        out.push_str(format!("{indent}{line}").trim_end());
        out.push('\n');
        line.clear();
        first = false;
    };
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        if !line.is_empty() && line.chars().count() + 1 + word.chars().count() > room {
            flush(&mut line);
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    flush(&mut line);
}
