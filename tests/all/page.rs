//! The page of HTML in a real browser: no error, no request, sliders that tell the engine's own figures,
//! nothing in the way of those who cannot see or use a mouse.

use crate::levers::{two_spikes, typed};
use crate::oracle_agrees::dice::Dice;
use crate::python;
use crate::sheet::{DEMO, demo, made};
use serde_json::{Value, json};

/// The page of the demonstration with a second spike.
fn written(folder: &std::path::Path) -> (crate::sheet::Made, String) {
    let made = made(&two_spikes(DEMO));
    let path = folder.join("comparison.html");
    std::fs::write(&path, made.file("comparison.html")).unwrap();
    (made, path.display().to_string())
}

#[test]
fn the_page_names_nothing_outside_itself() {
    let made = demo();
    let page = String::from_utf8(made.file("comparison.html")).unwrap();
    let allowed = "http://www.w3.org/2000/svg";
    for (at, _) in page.match_indices("://") {
        let start = page[..at].rfind(|c: char| !c.is_ascii_alphabetic()).map_or(0, |i| i + 1);
        assert!(page[start..].starts_with(allowed), "{}", &page[start..at + 20]);
    }
    assert!(!page.contains(" style="), "a style outside the sheet is not allowed by the page's own policy");
    assert!(page.contains("default-src 'none'"));
}

/// Independent tools: Chromium driven by playwright, and axe-core by axe-playwright-python.
#[test]
fn in_chromium_sliders_tell_the_engines_figures_to_the_cent_and_nothing_fails_or_leaves() {
    let folder = tempfile::tempdir().unwrap();
    let (made, path) = written(folder.path());
    let place =
        |id: &str| made.sheet.levers.fuels.iter().position(|f| Some(*f) == made.c.fuels.find(id)).unwrap();
    let mut dice = Dice::new(2026);
    let mut hundredth = |low: f64, high: f64| (dice.real(low, high) * 100.0).round() / 100.0;
    let mut settings = Vec::new();
    let mut expected = Vec::new();
    for _ in 0..20 {
        let (electricity, propane) = (hundredth(0.4, 3.0), hundredth(0.4, 3.0));
        let times = [hundredth(1.0, 4.0), hundredth(1.0, 4.0)];
        settings.push(json!({
            format!("fuel-{}", place("electricity")): electricity,
            format!("fuel-{}", place("propane")): propane,
            "spike-0": times[0],
            "spike-1": times[1],
        }));
        let whole = typed(&two_spikes(DEMO), electricity, propane, times);
        expected.push(whole.options.iter().map(|o| o.yearly_cost()).collect::<Vec<f64>>());
    }
    let asked = json!({ "page": path, "settings": settings });
    let found = python::run("browser_check.py", &asked.to_string());
    assert_eq!(found["console"], json!([]), "what the console says");
    assert_eq!(found["requests"], json!([]), "requests beside the page itself");
    for serious in ["390", "1280"] {
        assert_eq!(found["axe"][serious], json!([]), "axe-core at {serious} pixels");
    }
    assert_eq!(found["sideways"], json!([]), "widths at which the page itself is wider than its window");
    for (round, (costs, shown)) in expected.iter().zip(found["costs"].as_array().unwrap()).enumerate() {
        let shown: Vec<f64> = shown.as_array().unwrap().iter().map(number).collect();
        assert_eq!(costs.len(), shown.len());
        for (cost, shown) in costs.iter().zip(shown) {
            assert!((cost - shown).abs() < 0.0051, "{round}: {cost} {shown}");
        }
    }
}

fn number(value: &Value) -> f64 {
    value.as_str().unwrap().parse().unwrap()
}
