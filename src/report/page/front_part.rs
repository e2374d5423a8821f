//! Page one as markup.
//!
//! Start at [`front`].

use super::writing::{element, escaped, list};
use crate::report::band::{Band, BandRow, Entry, Head};
use crate::report::front::{Fact, Front};
use crate::report::logo::Logo;

/// Head of the page: who hands it over, whose house it is.
pub(super) fn head(front: &Front, logo: Option<&Logo>) -> String {
    let mut letterhead = String::new();
    if let Some(logo) = logo {
        let name = front.prepared_by.as_deref().unwrap_or("logo");
        letterhead += &format!("<img src=\"{}\" alt=\"{}\">\n", logo.address(), escaped(name));
    }
    let mut said = front.prepared_by.iter().map(|name| format!("<strong>{}</strong>", escaped(name)));
    let mut said: Vec<String> = said.by_ref().collect();
    said.extend(front.phone.iter().map(|phone| escaped(phone)));
    if !said.is_empty() {
        letterhead += &format!("<p>{}</p>\n", said.join(" \u{b7} "));
    }
    format!(
        "<header>\n<div class=\"letterhead\">\n{letterhead}</div>\n{}{}</header>\n",
        element("h1", &front.house),
        facts(&front.facts, "facts")
    )
}

fn facts(facts: &[Fact], class: &str) -> String {
    let one = |fact: &Fact| format!("<dt>{}</dt><dd>{}</dd>\n", escaped(&fact.label), escaped(&fact.words));
    format!("<dl class=\"{class}\">\n{}</dl>\n", facts.iter().map(one).collect::<String>())
}

/// The answer and the options side by side.
pub(super) fn front(front: &Front) -> String {
    let more: String = front.more.iter().map(|words| element("p", words)).collect();
    let bands: String = front.bands.iter().map(band).collect();
    format!(
        "<section aria-label=\"The answer\">\n<p class=\"verdict\">{}</p>\n{more}{bands}{}<h2>Please note</h2>\n{}</section>\n",
        escaped(&front.verdict),
        facts(&front.basis, "basis"),
        list(&front.cautions)
    )
}

fn band(band: &Band) -> String {
    let groups = band.groups.iter().map(|group| {
        format!("<th scope=\"colgroup\" colspan=\"{}\">{}</th>", group.heads.len(), escaped(&group.heading))
    });
    let heads = band.heads().map(|head| match head.words.is_empty() {
        true => "<td></td>".to_owned(),
        false => format!("<th scope=\"col\"{}>{}</th>", class(head.figures), escaped(&head.words)),
    });
    let rows: String = band.rows.iter().enumerate().map(|(i, row)| band_row(band, i, row)).collect();
    let remark = band.remark.as_ref().map(|words| format!("<p class=\"remark\">{}</p>\n", escaped(words)));
    format!(
        "<table class=\"band\">\n<thead>\n<tr><td></td>{}</tr>\n<tr><th scope=\"col\">Option</th>{}</tr>\n</thead>\n\
         <tbody>\n{rows}</tbody>\n</table>\n{}",
        groups.collect::<String>(),
        heads.collect::<String>(),
        remark.unwrap_or_default()
    )
}

fn class(figures: bool) -> &'static str {
    if figures { " class=\"n\"" } else { "" }
}

fn band_row(band: &Band, place: usize, row: &BandRow) -> String {
    // Where columns stand below each other, the first of a group says what the group answers.
    let groups = band.groups.iter().flat_map(|group| {
        let first = std::iter::once(Some(group.heading.as_str()));
        first.chain(std::iter::repeat(None)).take(group.heads.len())
    });
    let cells = row.entries.iter().zip(band.heads().zip(groups)).enumerate();
    let cells = cells.map(|(i, (entry, head))| cell(entry, head, band.strong == Some(i), place));
    format!(
        "<tr><th scope=\"row\"><span class=\"mark o{place}\"></span>{}</th>{}</tr>\n",
        escaped(&row.option),
        cells.collect::<String>()
    )
}

fn cell(entry: &Entry, (head, group): (&Head, Option<&str>), strong: bool, place: usize) -> String {
    if let Entry::Bar { low, at, high } = entry {
        return format!(
            "<td class=\"picture\">{}</td>",
            bar(&[(0.0, *low, 1.0), (*low, *at, 0.65), (*at, *high, 0.28)], place)
        );
    }
    let (shown, label) = (escaped(entry.shown()), escaped(&head.words));
    let shown = if strong { format!("<span class=\"key\">{shown}</span>") } else { shown };
    let group = group.map(|words| format!(" data-group=\"{}\"", escaped(words))).unwrap_or_default();
    format!("<td{}{group} data-head=\"{label}\">{shown}</td>", class(head.figures))
}

/// Parts of a bar in an option's colour: from and to as shares of its length, and how strong.
pub(super) fn bar(parts: &[(f64, f64, f64)], place: usize) -> String {
    let parts = parts.iter().filter(|(from, to, _)| to > from).map(|(from, to, strong)| {
        let (x, width) = (100.0 * from, 100.0 * (to - from));
        format!("<rect class=\"f{place}\" x=\"{x:.2}\" width=\"{width:.2}\" height=\"8\" fill-opacity=\"{strong}\"/>")
    });
    format!(
        "<svg class=\"bar\" viewBox=\"0 0 100 8\" preserveAspectRatio=\"none\" aria-hidden=\"true\">{}</svg>",
        parts.collect::<String>()
    )
}
