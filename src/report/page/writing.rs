//! Markup: text made harmless, tables, lists.
//!
//! Knows no report but tables. Start at [`escaped`].

use crate::report::model::{Align, Cell, Table};

/// Text that cannot be taken for markup, in an element or an attribute.
///
/// ```
/// use winterledger::report::page::escaped;
/// assert_eq!(escaped("<b a=\"1\">&"), "&lt;b a=&quot;1&quot;&gt;&amp;");
/// ```
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c if c.is_control() && c != '\n' && c != '\t' => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// An element with text in it.
pub(super) fn element(name: &str, text: &str) -> String {
    format!("<{name}>{}</{name}>\n", escaped(text))
}

/// A list; nothing where it is empty.
pub(super) fn list(items: &[String]) -> String {
    if items.is_empty() {
        return String::new();
    }
    let items: String = items.iter().map(|item| element("li", item)).collect();
    format!("<ul>\n{items}</ul>\n")
}

/// A table that can be pushed sideways where it is wider than the screen.
pub(super) fn table(table: &Table) -> String {
    let class = |align: Align| if align == Align::Right { " class=\"n\"" } else { "" };
    let heads = table.columns.iter().map(|column| {
        let head = escaped(&column.head);
        match head.is_empty() {
            true => format!("<td{}></td>", class(column.align)),
            false => format!("<th scope=\"col\"{}>{head}</th>", class(column.align)),
        }
    });
    let heads: String = heads.collect();
    let row = |cells: &Vec<Cell>| {
        let cells = cells.iter().zip(&table.columns).enumerate().map(|(i, (cell, column))| {
            let (shown, class) = (escaped(cell.shown()), class(column.align));
            match i {
                0 if !shown.is_empty() => format!("<th scope=\"row\"{class}>{shown}</th>"),
                _ => format!("<td{class}>{shown}</td>"),
            }
        });
        format!("<tr>{}</tr>\n", cells.collect::<String>())
    };
    let rows: String = table.rows.iter().map(row).collect();
    let remark = table.remark.as_ref().map(|words| format!("<p class=\"remark\">{}</p>\n", escaped(words)));
    let heading = match table.heading.is_empty() {
        true => escaped(&table.name.replace('_', " ")),
        false => escaped(&table.heading),
    };
    format!(
        "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"{heading}\">\n<table>\n\
         <caption>{heading}</caption>\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n</div>\n{}",
        remark.unwrap_or_default()
    )
}
