//! The sheet that goes home, made for the tests of its forms: page one's value, the PDF, the page.
//!
//! Start at [`made`].

use crate::demo_job::chicago;
use std::sync::LazyLock;
use winterledger::comparison::{Comparison, compare};
use winterledger::job::{Job, edit, reader};
use winterledger::problem::Problems;
use winterledger::report::files::{ReadyFile, sheet_files};
use winterledger::report::front::front;
use winterledger::report::logo::Logo;
use winterledger::report::sheet::Sheet;
use winterledger::report::studied::Studied;
use winterledger::report::{Report, build, gallery};
use winterledger::study;
use winterledger::study::tipping::Asked;
use winterledger::weather::Weather;

pub(crate) const DEMO: &str = include_str!("../../data/demo.toml");

/// A job, compared, with its sheet.
pub(crate) struct Made {
    pub(crate) c: Comparison,
    pub(crate) report: Report,
    pub(crate) sheet: Sheet,
    pub(crate) studied: Studied,
}

/// The sheet of the job of `text`.
pub(crate) fn made(text: &str) -> Made {
    let job = reader::read("job.toml", text.to_owned()).unwrap_or_else(|p| panic!("{p:?}"));
    let weather = chicago();
    let c = compare(&job, &weather).unwrap_or_else(|p| panic!("{p:?}"));
    let around = study::around(&job, &weather, &c).unwrap_or_else(|p| panic!("{p:?}"));
    let levers = study::levers(&c);
    let studied = studied(&job, &weather, &c).unwrap_or_else(|p| panic!("{p:?}"));
    let logo = "<svg xmlns='http://www.w3.org/2000/svg' width='120' height='40'><rect width='120' height='40'/></svg>";
    let logo = Some(Logo::read(logo.as_bytes().to_vec()).unwrap());
    let mut report = build::report(&c);
    report.appendices.extend(studied.tables(&c));
    let front = front(&c, &around, &studied);
    Made { sheet: Sheet { front, logo, levers }, studied, report, c }
}

/// What `compare --out` studies beside the comparison.
fn studied(job: &Job, weather: &Weather, c: &Comparison) -> Result<Studied, Problems> {
    let tipping = study::tipping(job, weather, c, &Asked::default())?;
    let scenarios = study::scenarios(job, weather, c)?;
    let map = match &tipping {
        Some(found) => study::price_map(job, weather, c, found, &scenarios)?,
        None => None,
    };
    let winters = study::draws_as_in_job(job, weather, c);
    Ok(Studied { map, sway: study::sway(job, weather, c, &Asked::default())?, winters, tipping })
}

/// The demonstration's sheet, made once.
pub(crate) fn demo() -> &'static Made {
    static MADE: LazyLock<Made> = LazyLock::new(|| made(DEMO));
    &MADE
}

impl Made {
    /// PDF, page and JSON.
    pub(crate) fn files(&self) -> Vec<ReadyFile> {
        let charts = gallery::charts(&self.c, &self.studied).unwrap();
        sheet_files(&self.c, &self.report, &self.sheet, &charts).unwrap()
    }

    /// The bytes of the file of that name.
    pub(crate) fn file(&self, name: &str) -> Vec<u8> {
        self.files().into_iter().find(|file| file.name == name).unwrap().bytes
    }
}

/// The demonstration with some values changed.
pub(crate) fn changed(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(DEMO.to_owned(), |text, (key, value)| edit::set(&text, key, value).unwrap())
}

/// The demonstration with one option alone.
pub(crate) fn one_option() -> String {
    let first = DEMO.find("[[option]]").unwrap();
    let second = first + 1 + DEMO[first + 1..].find("\n[[option]]").unwrap();
    let scenario = DEMO.find("[[scenario]]").unwrap();
    let rest = DEMO[scenario..].replace("base = \"Propane furnace\"", "");
    format!("{}{rest}", &DEMO[..second])
}

/// The demonstration with names as long as a page is wide, and with prices of nothing and of millions.
pub(crate) fn extremes() -> String {
    let long = "A very long name of an option that somebody typed who wished to say everything at once, \
                without-leaving-anything-out-whatsoever";
    changed(&[
        ("option.Heat pumps with strips.name", long),
        (
            "option.Oil furnace.name",
            "Oilfurnacewithoutanyspaceinitsnamewhichmustbecutsomewhereelseitleavesthepage",
        ),
        ("prices.electricity.price", "0.0001 $/kWh"),
        ("prices.propane.price_by_month.jan", "99999 $/gal"),
    ])
}

/// The demonstration with eight options.
pub(crate) fn eight_options() -> String {
    let first = DEMO.find("[[option]]").unwrap();
    let second = first + 1 + DEMO[first + 1..].find("\n[[option]]").unwrap();
    let more =
        |i: usize| DEMO[first..second].replace("Heat pumps with strips", &format!("Heat pumps, number {i}"));
    format!("{}\n{}\n{}", DEMO, more(7), more(8))
}

/// The demonstration at prices of nothing.
pub(crate) fn for_nothing() -> String {
    let mut text = changed(&[
        ("prices.electricity.price", "0 $/kWh"),
        ("prices.electricity.fixed", "0 $/month"),
        ("prices.oil_no_2.price", "0 $/gal"),
    ]);
    for month in ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"] {
        text = edit::set(&text, &format!("prices.propane.price_by_month.{month}"), "0 $/gal").unwrap();
    }
    text
}
