//! Page one: its figures are those of the comparison, rounded as it says; its words are those that a
//! homeowner knows; it is one page, whatever the job.

use crate::sheet::{DEMO, Made, demo, eight_options, extremes, for_nothing, made, one_option};
use std::process::Command;
use winterledger::comparison::PaperSize;
use winterledger::report::band::Entry;
use winterledger::report::json;
use winterledger::study::crossing::Crossing;

/// Poppler's text of some pages of a PDF.
fn text_of(pdf: &[u8], arguments: &[&str]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    std::fs::write(&path, pdf).unwrap();
    let output = Command::new("pdftotext").args(arguments).arg(&path).arg("-").output();
    let output = output.unwrap_or_else(|e| panic!("pdftotext: {e}; tests/run installs poppler-utils"));
    String::from_utf8(output.stdout).unwrap()
}

fn page_one(made: &Made) -> String {
    text_of(&made.file("comparison.pdf"), &["-l", "1"])
}

/// Words without the spaces between them, as lines are broken anywhere.
fn joined(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

/// The rule that page one states, worked out here by itself: to 10 below 5,000, else to 50.
fn rounded(amount: f64) -> String {
    let step = if amount.abs() < 5000.0 { 10 } else { 50 };
    let whole = ((amount / f64::from(step)).round() as i64) * step as i64;
    let digits = whole.abs().to_string();
    let mut grouped = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    format!("${grouped}")
}

#[test]
fn page_one_shows_the_comparisons_own_figures_rounded_as_stated() {
    let made = demo();
    let whole: serde_json::Value = serde_json::from_str(&json::text(&made.c, None).unwrap()).unwrap();
    let page = joined(&page_one(made));
    let twin: serde_json::Value = serde_json::from_slice(&made.file("page_one.json")).unwrap();
    let bands = twin["bands"].as_array().unwrap();
    let mut loans = 0;
    for (i, option) in whole["options"].as_array().unwrap().iter().enumerate() {
        let cost = &bands[0]["rows"][i]["entries"][3]["figure"];
        assert_eq!(cost["exact"], option["yearly_cost"]);
        assert_eq!(cost["shown"], rounded(option["yearly_cost"].as_f64().unwrap()));
        let monthly = &option["life_cycle"];
        let paid =
            monthly["loan_a_month"].as_f64().unwrap() + monthly["bills_and_upkeep_a_month"].as_f64().unwrap();
        let shown = &bands[1]["rows"][i]["entries"][4]["figure"];
        assert_eq!(shown["exact"].as_f64().unwrap(), paid);
        let loan = monthly["loan_a_month"].as_f64().unwrap();
        let then = if loan > 0.0 { format!(", then {}", rounded(paid - loan)) } else { String::new() };
        assert_eq!(shown["shown"], format!("{}{then}", rounded(paid)));
        loans += usize::from(loan > 0.0);
    }
    let mut figures = 0;
    for row in made.sheet.front.bands.iter().flat_map(|band| &band.rows) {
        for entry in &row.entries {
            assert!(page.contains(&joined(entry.shown())) || entry.shown().is_empty(), "{entry:?}\n{page}");
            figures += usize::from(matches!(entry, Entry::Figure { .. } | Entry::Range { .. }));
        }
    }
    assert!(figures > 40, "{figures}");
    assert!(loans > 0, "no option of the demonstration has a loan");
}

#[test]
fn ranges_hold_their_figure_and_are_rounded_outwards() {
    let made = demo();
    for row in &made.sheet.front.bands[0].rows {
        let (Entry::Figure { exact, .. }, Entry::Range { exact: (low, high), shown }) =
            (&row.entries[3], &row.entries[5])
        else {
            panic!("{row:?}")
        };
        assert!(low < exact && exact < high, "{row:?}");
        let amount = |words: &str| words.replace(['$', ','], "").parse::<f64>().unwrap();
        let (from, to) = shown.split_once(" to ").unwrap();
        assert!(amount(from) <= *low && amount(to) >= *high, "{shown} {low} {high}");
    }
}

/// The prices are those of the break-even study, told as page one tells a price.
#[test]
fn page_one_tells_the_studys_break_even_with_its_span() {
    let made = demo();
    let told = made.sheet.front.more.last().unwrap();
    let prices = &made.studied.tipping.as_ref().unwrap().prices;
    assert_eq!(prices.len(), 2, "propane's and electricity's");
    for price in prices {
        let (low, high) = price.range().unwrap();
        let digits = if price.today < 1.0 { 3 } else { 2 };
        let span = format!("(${low:.digits$} to ${high:.digits$}; now ${:.digits$})", price.today);
        let before = told.find(&span).unwrap_or_else(|| panic!("{span}: {told}"));
        let shown = told[..before].rsplit('$').next().unwrap().split(' ').next().unwrap();
        let shown: f64 = shown.parse().unwrap_or_else(|e| panic!("{shown}: {e}: {told}"));
        let [Crossing::Same(pair)] = price.found.as_slice() else { panic!("{price:?}") };
        let exact = pair.at * price.today;
        let step = if exact < 1.0 { 0.001 } else { 0.01 };
        assert!((shown - exact).abs() <= 0.5 * step + 1e-9, "{shown} for {exact}: {told}");
    }
    let share = 100.0 * made.c.load_uncertainty;
    assert!(told.contains(&format!("{share:.0} % less or more heat")), "{told}");
}

/// Words that the trade knows and a homeowner does not, or that promise too much.
const NOT_ON_PAGE_ONE: [&str; 11] = [
    "balance temperature",
    "COP",
    "P90",
    "HSPF2",
    "AFUE",
    "design load",
    " tons",
    " cents",
    "certain",
    "saves",
    "degree-days",
];

#[test]
fn page_one_speaks_as_people_do() {
    for made in [demo(), &made(&one_option())] {
        let page = page_one(made).replace('\n', " ");
        for word in NOT_ON_PAGE_ONE {
            assert!(!page.contains(word), "{word}: {page}");
        }
        assert!(page.contains("in a typical winter at the prices below"), "{page}");
        assert!(page.contains("none in a typical year, which leaves out extremes"), "{page}");
    }
}

#[test]
fn the_verdict_is_too_close_to_call_or_names_the_one_that_costs_the_least() {
    assert!(
        made(DEMO)
            .sheet
            .front
            .verdict
            .starts_with("Too close to call: \u{201c}Heat pumps with strips\u{201d}")
    );
    let dear = crate::sheet::changed(&[("prices.electricity.price", "0.10 $/kWh")]);
    let verdict = made(&dear).sheet.front.verdict;
    assert!(
        verdict.starts_with("\u{201c}Heat pumps with strips\u{201d} costs the least to run"),
        "{verdict}"
    );
    let verdict = made(&one_option()).sheet.front.verdict;
    assert!(
        verdict.starts_with("\u{201c}Heat pumps with strips\u{201d} keeps the house warm: about $"),
        "{verdict}"
    );
}

#[test]
fn page_one_is_one_page_and_every_word_of_the_pdf_lies_free_and_on_its_page() {
    for text in [DEMO.to_owned(), one_option(), extremes(), eight_options(), for_nothing()] {
        let mut made = made(&text);
        for paper in [PaperSize::Letter, PaperSize::A4] {
            made.c.heading.paper = Some(paper);
            let boxes = text_of(&made.file("comparison.pdf"), &["-bbox"]);
            let pages: Vec<&str> = boxes.split("<page ").skip(1).collect();
            for (number, page) in pages.iter().enumerate() {
                free(page, number + 1);
            }
            let words = |page: &str| {
                let words = page.split("</word>").filter_map(|word| word.rsplit('>').next());
                joined(&words.collect::<String>())
            };
            assert!(words(pages[0]).contains("Askaheatingcontractor"), "page one does not end on its page");
            assert!(words(pages[1]).contains("behindpageone"));
        }
    }
}

/// No word of a page leaves it or lies over another. Independent tool: the boxes of poppler's pdftotext.
fn free(page: &str, number: usize) {
    let value = |text: &str, key: &str| -> f64 {
        let from = text.find(&format!("{key}=\"")).unwrap() + key.len() + 2;
        text[from..].split('"').next().unwrap().parse().unwrap()
    };
    let (width, height) = (value(page, "width"), value(page, "height"));
    let mut boxes: Vec<([f64; 4], &str)> = Vec::new();
    for word in page.split("<word ").skip(1) {
        let own = ["xMin", "yMin", "xMax", "yMax"].map(|key| value(word, key));
        boxes.push((own, word.split('>').nth(1).unwrap().split('<').next().unwrap()));
    }
    for (i, ([left, top, right, bottom], word)) in boxes.iter().enumerate() {
        assert!(
            *left >= 20.0 && *right <= width - 20.0 && *top >= 15.0 && *bottom <= height - 10.0,
            "{number}: {word}"
        );
        for (other, second) in &boxes[i + 1..] {
            // A box has room for the tallest letters of the typeface, which lines set close share.
            let slack = 0.22 * (bottom - top).min(other[3] - other[1]);
            let apart = *right <= other[0] + 0.3
                || other[2] <= *left + 0.3
                || *bottom <= other[1] + slack * 2.0
                || other[3] <= *top + slack * 2.0;
            assert!(
                apart,
                "page {number}: {word} lies over {second}: {left} {top} {right} {bottom} {other:?}"
            );
        }
    }
}

#[test]
fn the_same_job_gives_the_same_pdf_page_and_charts() {
    let (one, two) = (demo(), &made(DEMO));
    assert!(one.files() == two.files());
    let charts = |made: &Made| winterledger::report::gallery::charts(&made.c, &made.studied).unwrap();
    assert!(charts(one) == charts(two));
}

/// Eight options whose names are long leave no room at the foot of page one: what must be on it stands before them.
#[test]
fn cautions_stand_on_page_one_whatever_the_options() {
    let long = |text: String| {
        (1..=8).fold(text, |text, i| {
            text.replace(
                &format!("number {i}\""),
                &format!("number {i}, with a name that takes up two lines\""),
            )
        })
    };
    let page = joined(&page_one(&made(&long(eight_options()))));
    for caution in
        ["Ifyousmellgas,leave,thencall", "Askaheatingcontractor", "localcodesandalicensedcontractordecide"]
    {
        assert!(page.contains(caution), "{page}");
    }
}
