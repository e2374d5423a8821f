//! The comparison as one page of HTML that holds everything within itself: letters, charts, sliders. It can
//! be sent by mail and opened anywhere; no request ever leaves it.
//!
//! Page one's figures come rounded, charts come drawn. Start at [`document`].

mod writing;
mod front_part;
mod levers_part;

pub use writing::escaped;

use super::charts::option_colour;
use super::model::{Report, Table};
use super::printed::{self, Chart};
use super::sheet::Sheet;
use crate::comparison::Comparison;
use crate::problem::Problem;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};
use writing::{element, list, table};

const STYLE: &str = include_str!("style.css");
const SCRIPT: &str = include_str!("script.js");
const REGULAR: &[u8] = include_bytes!("../../../data/fonts/Inter-Regular.woff2");
const SEMI_BOLD: &[u8] = include_bytes!("../../../data/fonts/Inter-SemiBold.woff2");

/// The page.
///
/// # Errors
/// Figures that JSON cannot hold; that would be a defect.
pub fn document(c: &Comparison, report: &Report, sheet: &Sheet, charts: &[Chart]) -> Result<String, Problem> {
    let style = style(c.options.len());
    let data = levers_part::data(c, &sheet.levers);
    let data = data.map_err(|e| Problem::new(format!("the levers cannot be written as JSON: {e}")))?;
    let front = &sheet.front;
    Ok([
        head(&front.house, &style),
        front_part::head(front, sheet.logo.as_ref()),
        "<main id=\"main\">\n".into(),
        front_part::front(front),
        levers_part::sliders(c, &sheet.levers),
        pictures(report, charts),
        figures(report),
        rests_on(report),
        "</main>\n".into(),
        format!("<footer>\n{}</footer>\n", element("p", &report.foot)),
        format!("<script type=\"application/json\" id=\"levers\">{data}</script>\n"),
        format!("<script>{SCRIPT}</script>\n</body>\n</html>\n"),
    ]
    .concat())
}

/// The style with letters and the options' colours.
fn style(options: usize) -> String {
    let face = |bytes: &[u8], weight: u16| {
        format!(
            "@font-face{{font-family:Inter;font-weight:{weight};src:url(data:font/woff2;base64,{}) format(\"woff2\")}}\n",
            STANDARD.encode(bytes)
        )
    };
    let colour = |place: usize| {
        let [red, green, blue] = option_colour(place);
        format!(
            ".o{place}{{--o:#{red:02x}{green:02x}{blue:02x}}}.f{place}{{fill:#{red:02x}{green:02x}{blue:02x}}}\n"
        )
    };
    let colours: String = (0..options).map(colour).collect();
    format!("{}{}{STYLE}{colours}", face(REGULAR, 400), face(SEMI_BOLD, 600))
}

/// What may be loaded: nothing but what stands in the page, told by its hash.
fn policy(style: &str) -> String {
    let hash = |text: &str| STANDARD.encode(Sha256::digest(text.as_bytes()));
    format!(
        "default-src 'none'; style-src 'sha256-{}'; script-src 'sha256-{}'; img-src data:; font-src data:; base-uri \
         'none'; form-action 'none'",
        hash(style),
        hash(SCRIPT)
    )
}

fn head(title: &str, style: &str) -> String {
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"referrer\" content=\"no-referrer\">\n<meta name=\"color-scheme\" content=\"light dark\">\n\
         <link rel=\"icon\" href=\"data:,\">\n{}<style>{style}</style>\n</head>\n<body>\n\
         <a class=\"skip\" href=\"#main\">To the answer</a>\n",
        policy(style),
        element("title", title)
    )
}

fn pictures(report: &Report, charts: &[Chart]) -> String {
    let all = || report.tables.iter().chain(&report.appendices);
    let figure = |chart: &Chart| {
        let tables: String =
            chart.tables.iter().filter_map(|name| all().find(|t| t.name == *name)).map(table).collect();
        let words = escaped(&chart.words);
        let behind = match tables.is_empty() {
            true => String::new(),
            false => format!("<details>\n<summary>The figures behind it</summary>\n{tables}</details>\n"),
        };
        format!(
            "<figure>\n<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"{words}\">\n{}\n</div>\n\
             <figcaption>{words}</figcaption>\n{behind}</figure>\n",
            chart.svg
        )
    };
    let figures: String = charts.iter().map(figure).collect();
    format!("<section aria-labelledby=\"charts\">\n<h2 id=\"charts\">Charts</h2>\n{figures}</section>\n")
}

fn figures(report: &Report) -> String {
    let part = |(heading, tables): (&str, Vec<&Table>)| {
        let tables: String = tables.into_iter().map(table).collect();
        format!("<section>\n{}{tables}</section>\n", element("h2", heading))
    };
    printed::parts(report).into_iter().map(part).collect()
}

fn rests_on(report: &Report) -> String {
    let lists = [
        ("Notes", &report.notes),
        ("Assumed, since the job does not say", &report.assumptions),
        ("Cautions", &report.cautions),
    ];
    let lists = lists.into_iter().filter(|(_, items)| !items.is_empty());
    let lists: String = lists.map(|(heading, items)| element("h3", heading) + &list(items)).collect();
    format!("<section>\n<h2>What it rests on</h2>\n{lists}</section>\n")
}
