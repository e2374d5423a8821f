//! The schemas in `data/`: current, of the same keys as the reader, and right by an independent tool.
//!
//! `WINTERLEDGER_REWRITE=1 cargo test --test all schema` writes them anew; read the difference
//! before it is committed.

use crate::commands_start::winterledger;
use crate::python;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::path::Path;
use winterledger::job::edit::set;
use winterledger::job::reader::read;

const ALL_KEYS: &str = include_str!("job_keys.toml");
const DEMO: &str = include_str!("../../data/demo.toml");
const STARTER: &str = include_str!("../../data/starter.toml");

#[test]
fn the_schemas_in_the_data_folder_are_those_of_this_program() {
    for (name, text) in [
        ("job", winterledger::job::schema::text().unwrap()),
        ("comparison", winterledger::report::json::schema().unwrap()),
    ] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("data/{name}.schema.json"));
        if std::env::var_os("WINTERLEDGER_REWRITE").is_some() {
            std::fs::write(&path, &text).unwrap();
        }
        let there = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(there == text, "data/{name}.schema.json is not current; see the head of this test's file");
        let printed = winterledger().args(["schema", name]).output().unwrap();
        assert_eq!(String::from_utf8(printed.stdout).unwrap(), text);
    }
}

/// Every table of `job_keys.toml`: its path for the editor, and its path in the schema.
const TABLES: [(&str, &str); 58] = [
    ("", ""),
    ("job.", "job"),
    ("site.", "site"),
    ("house.", "house"),
    ("house.zone.1.", "house zone"),
    ("house.zone.1.set_back.1.", "house zone set_back"),
    ("house.zone.2.", "house zone"),
    ("house.zone.2.ducts.", "house zone ducts"),
    ("equipment.1.", "equipment heat_pump"),
    ("equipment.2.", "equipment heat_pump"),
    ("equipment.3.", "equipment air_conditioner"),
    ("equipment.4.", "equipment air_conditioner"),
    ("equipment.5.", "equipment furnace"),
    ("equipment.6.", "equipment resistance"),
    ("equipment.7.", "equipment heat_pump"),
    ("equipment.8.", "equipment air_conditioner"),
    ("equipment.7.nameplate.", "equipment heat_pump nameplate"),
    ("equipment.8.nameplate.", "equipment air_conditioner nameplate"),
    ("household.", "household"),
    ("equipment.9.", "equipment water_heater"),
    ("equipment.11.", "equipment dryer"),
    ("equipment.12.", "equipment range"),
    ("equipment.13.", "equipment boiler"),
    ("equipment.14.", "equipment wall_heater"),
    ("equipment.15.", "equipment wood_stove"),
    ("equipment.16.", "equipment pellet_stove"),
    ("equipment.17.", "equipment outdoor_unit"),
    ("equipment.17.heating.1.", "equipment outdoor_unit heating"),
    ("equipment.17.cooling.1.", "equipment outdoor_unit cooling"),
    ("equipment.18.", "equipment ground_source_heat_pump"),
    ("equipment.18.heating.1.", "equipment ground_source_heat_pump heating"),
    ("equipment.18.cooling.1.", "equipment ground_source_heat_pump cooling"),
    ("equipment.1.heating.1.", "equipment heat_pump heating"),
    ("equipment.1.cooling.1.", "equipment heat_pump cooling"),
    ("supply.1.", "supply"),
    ("option.1.", "option"),
    ("option.1.zone.1.", "option zone"),
    ("option.1.cost.1.", "option cost"),
    ("option.1.incentive.1.", "option incentive"),
    ("option.1.loan.", "option loan"),
    ("economics.", "economics"),
    ("scenario.1.", "scenario"),
    ("scenario.1.price.1.", "scenario price"),
    ("prices.electricity.", "prices"),
    ("prices.electricity.period.1.", "prices period"),
    ("prices.electricity.season.1.", "prices season"),
    ("prices.electricity.season.1.tier.1.", "prices season tier"),
    ("prices.electricity.season.1.period.1.", "prices season period"),
    ("prices.electricity.rider.1.", "prices rider"),
    ("prices.electricity.heating.", "prices heating"),
    ("prices.electricity.heating.interrupted.1.", "prices heating interrupted"),
    ("prices.propane.by_yearly_use.1.", "prices by_yearly_use"),
    ("prices.propane.price_by_month.", "prices price_by_month"),
    ("prices.oil_no_2.price_by_season.", "prices price_by_season"),
    ("prices.propane.spike.1.", "prices spike"),
    ("prices.propane.past.1.", "prices past"),
    ("vary.1.", "vary"),
    ("vary.2.", "vary"),
];

/// The keys that the reader knows in a table, as it lists them beside a key that it does not know.
fn reader_keys(path: &str) -> BTreeSet<String> {
    let text = match path {
        "" => format!("zzqx = 1\n{ALL_KEYS}"),
        _ => set(ALL_KEYS, &format!("{path}zzqx"), "1").unwrap(),
    };
    let problems = read("x.toml", text).unwrap_err();
    let unknown = problems.iter().find(|p| p.key.as_deref().is_some_and(|key| key.ends_with("zzqx")));
    let list = unknown.and_then(|p| p.allowed.clone()).unwrap_or_else(|| panic!("{path}: {problems:?}"));
    list.split(", ").map(str::to_owned).collect()
}

/// Follows references, lists and maps down to the object itself.
fn object<'a>(schema: &'a Value, mut at: &'a Value) -> &'a Value {
    loop {
        if let Some(reference) = at["$ref"].as_str() {
            at = schema.pointer(reference.trim_start_matches('#')).unwrap();
        } else if at.get("items").is_some() {
            at = &at["items"];
        } else if at["additionalProperties"].is_object() {
            at = &at["additionalProperties"];
        } else {
            return at;
        }
    }
}

fn schema_keys(schema: &Value, path: &str) -> BTreeSet<String> {
    let mut at = object(schema, schema);
    for step in path.split_whitespace() {
        let kinds = at["oneOf"].as_array().filter(|_| at.get("properties").is_none());
        at = match kinds {
            Some(kinds) => kinds.iter().find(|k| k["properties"]["kind"]["const"] == step).unwrap(),
            None => object(schema, &at["properties"][step]),
        };
    }
    assert_eq!(at["additionalProperties"], json!(false), "{path}");
    at["properties"].as_object().unwrap().keys().cloned().collect()
}

#[test]
fn the_schema_and_the_reader_know_the_same_keys() {
    let schema: Value = serde_json::from_str(&winterledger::job::schema::text().unwrap()).unwrap();
    for (path, in_schema) in TABLES {
        assert_eq!(schema_keys(&schema, in_schema), reader_keys(path), "{path}");
    }
}

#[test]
fn the_starter_job_explains_every_key_that_the_reader_knows() {
    let words: BTreeSet<&str> = STARTER.split(|c: char| !(c.is_ascii_alphanumeric() || c == '_')).collect();
    for (path, _) in TABLES {
        for key in reader_keys(path) {
            assert!(words.contains(key.as_str()), "{path}{key} is not in data/starter.toml");
        }
    }
}

pub(crate) fn faults(schema: &str, documents: &[(&str, &str)]) -> Vec<Vec<String>> {
    let documents: Vec<Value> =
        documents.iter().map(|(form, text)| json!({ "form": form, "text": text })).collect();
    let question = json!({ "schema": schema, "documents": documents });
    let answer = python::run("schema_check.py", &question.to_string());
    println!("{}", answer["versions"]);
    serde_json::from_value(answer["faults"].clone()).unwrap()
}

#[test]
fn an_independent_tool_finds_our_jobs_valid_and_bad_ones_not() {
    let misspelt = DEMO.replace("extreme_low", "extreme_lo");
    let no_unit = DEMO.replace("\"33250 Btu/h\"", "\"33250\"");
    let wrong_kind = DEMO.replace("kind = \"furnace\"", "kind = \"stove\"");
    let percent = DEMO.replace("afue = 0.85", "afue = 85");
    let missing = DEMO.replace("indoor = \"70 degF\"\n", "");
    let two = DEMO.replace("weather = \"il-chicago\"", "weather = \"il-chicago\"\nweather_file = \"a.epw\"");
    let monthly = crate::job::all_keys_monthly();
    let good = [DEMO, STARTER, ALL_KEYS, &monthly];
    let bad = [misspelt, no_unit, wrong_kind, percent, missing, two];
    let documents: Vec<_> =
        good.iter().copied().chain(bad.iter().map(String::as_str)).map(|t| ("toml", t)).collect();
    // Independent tool: jsonschema, of the version that tests/requirements.txt pins.
    for (i, found) in faults("data/job.schema.json", &documents).iter().enumerate() {
        assert_eq!(found.is_empty(), i < good.len(), "document {i}: {found:#?}");
        assert_eq!(read("x.toml", documents[i].1.to_owned()).is_ok(), i < good.len(), "document {i}");
    }
}

#[test]
fn an_independent_tool_finds_our_comparison_valid_and_a_bad_one_not() {
    let output = winterledger().args(["compare", "--json"]).output().unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let bad = text.replacen("\"yearly_cost\"", "\"cost\"", 1);
    assert_ne!(text, bad);
    let found = faults("data/comparison.schema.json", &[("json", &text), ("json", &bad)]);
    assert_eq!((found[0].len(), found[1].is_empty()), (0, false), "{:#?}", found[0]);
}
