//! The job's schema takes the spellings of numbers, units and days that the reader takes, and refuses with it.

use crate::commands_schema::faults;
use winterledger::job::reader::read;

const DEMO: &str = include_str!("../../data/demo.toml");
/// What the demonstration has, and what may stand in its place.
const TAKEN: [(&str, &[&str]); 9] = [
    (
        "\"-22 degF\"",
        &[
            "\"\u{2212}22 degF\"",
            "\"\u{2013} 22 degF\"",
            "\"\u{2014}22degF\"",
            "\"-22 \u{b0}F\"",
            "\"-22 \u{b0} f\"",
            "\"-22F\"",
            "\"-30 deg C\"",
            "\"-30.0 C\"",
            "\"243.15 K\"",
            "\"243.15 Kelvin\"",
            "\"-2.2e1 degF\"",
        ],
    ),
    (
        "\"33250 Btu/h\"",
        &[
            "\"33250 BTUH\"",
            "\"33250 btuh\"",
            "\"33,250 BTU/hr\"",
            "\"33250 Btu / h\"",
            "\"33250 BTU\u{b7}h\"",
            "\"33.25 kBTUH\"",
            "\"33.25 mbh\"",
            "\"33.25MBH\"",
            "\"2.77 TON\"",
            "\"9.74 KW\"",
            "\"+9744. w\"",
        ],
    ),
    ("\"2600 ft2\"", &["\"2,600 sq ft\"", "\"2600 SqFt\"", "\"2600 FT\u{b2}\"", "\"241.5 M\u{b2}\""]),
    ("lasts = \"15 years\"", &["lasts = \"15 Years\"", "lasts = \"15 YR\"", "lasts = \"15yr\""]),
    ("date = \"2026-03-15\"", &["date = \"15 March 2026\"", "date = \"Mar 15th, 2026\""]),
    ("blower = \"500 W\"", &["blower = \"0.5 kw\""]),
    ("\"0 degF\"", &["\"\u{2212}0.5 degF\"", "\".5 degF\""]),
    ("\"70 degF\"", &["\"21 degc\"", "\"294.15 k\""]),
    ("outdoor = \"-13 degF\"", &["outdoor = \"\u{2010}13 degF\"", "outdoor = \"\u{2011}25 degC\""]),
];
const REFUSED: [(&str, &[&str]); 5] = [
    (
        "\"-22 degF\"",
        &[
            "\"\u{2212}-22 degF\"",
            "\"-22 degrees\"",
            "\"- 22 degF\"",
            "\"minus 22 degF\"",
            "\"-22\"",
            "\"-22 R\"",
        ],
    ),
    (
        "\"33250 Btu/h\"",
        &[
            "\"33250\"",
            "\"33,25 kBtu/h\"",
            "\"3,3250 Btu/h\"",
            "\"33250 Btu\"",
            "\"33250 BTUHR\"",
            "\"ca. 33250 Btu/h\"",
            "\"33 250 Btu/h\"",
            "\"33.250.0 W\"",
            "33250",
        ],
    ),
    ("\"2600 ft2\"", &["\"2600 ft\"", "\"2600 sf\"", "\"2600 square feet\""]),
    ("lasts = \"15 years\"", &["lasts = \"15 a\"", "lasts = \"15\"", "lasts = 15"]),
    ("date = \"2026-03-15\"", &["date = \"3/15/2026\"", "date = \"March 2026\"", "date = \"15.03.2026\""]),
];

fn written(list: &[(&str, &[&str])]) -> Vec<String> {
    let each = list.iter().flat_map(|(from, to)| to.iter().map(|to| (*from, *to)));
    let documents = each.map(|(from, to)| {
        let text = DEMO.replacen(from, to, 1);
        assert!(text != DEMO, "{from}");
        text
    });
    documents.collect()
}

/// Independent tool: jsonschema, of the version that tests/requirements.txt pins.
#[test]
fn the_schema_takes_the_spellings_that_the_reader_takes_and_no_others() {
    let (taken, refused) = (written(&TAKEN), written(&REFUSED));
    let said: Vec<_> = TAKEN.iter().chain(&REFUSED).flat_map(|(_, to)| to.iter()).collect();
    let documents: Vec<_> = taken.iter().chain(&refused).map(|text| ("toml", text.as_str())).collect();
    for (i, found) in faults("data/job.schema.json", &documents).iter().enumerate() {
        let sound = i < taken.len();
        let by_reader = read("x.toml", documents[i].1.to_owned());
        let key = said[i];
        assert_eq!(by_reader.is_ok(), sound, "reader, {key}: {:#?}", by_reader.err());
        assert_eq!(found.is_empty(), sound, "schema, {key}: {found:#?}");
    }
}
