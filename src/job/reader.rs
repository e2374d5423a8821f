//! The text of a job file into a [`Job`], or every problem in it at once.
//!
//! Opens no file and judges no formula. Start at [`read`].

use sha2::{Digest, Sha256};
use toml::de::{DeTable, DeValue};

use super::agreement::cut_outs;
use super::choice_reader::option;
use super::choices::OptionSection;
use super::costs::EconomicsSection;
use super::costs_reader::economics;
use super::found::{Found, MOST_PROBLEMS};
use super::house_reader::{house, job};
use super::household::HouseholdSection;
use super::household_reader::household;
use super::machine_reader::machine;
use super::machines::EquipmentSection;
use super::names::{Known, Names};
use super::past_use::PastUseSection;
use super::past_use_reader::past_use;
use super::price_reader::prices;
use super::price_sections::PricesSection;
use super::sections::{HouseSection, Job, JobSection, SiteSection};
use super::site_reader::site;
use super::supply::SupplySection;
use super::supply_reader::supply;
use super::syntax;
use super::table::Table;
use super::typed::Typed;
use super::what_if::{DrawsSection, ScenarioSection, VarySection};
use super::what_if_reader::{draws, inputs, scenarios};
use super::wording::{Fault, closest, described};
use crate::problem::{Problem, Problems};

/// The form of job file that this program reads.
pub const FORMAT: i64 = 1;

/// Bytes a job file may have.
pub const GREATEST_SIZE: usize = 4_000_000;

/// Reads the bytes of a job file; `file` is its name for messages.
///
/// # Errors
/// All problems: too large, not text, not UTF-8, and those of [`read`].
pub fn from_bytes(file: &str, bytes: &[u8]) -> Result<Job, Problems> {
    let refuse = |problem: Problem| Err(vec![problem.in_file(file)]);
    if bytes.len() > GREATEST_SIZE {
        let what = format!("the file has {} bytes; no job file is that large", bytes.len());
        return refuse(Problem::new(what).allowed("up to 4 MB").help("see whether this is the right file"));
    }
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return refuse(Problem::new("the file is UTF-16 text").help("save it as UTF-8"));
    }
    if bytes.contains(&0) {
        let problem = Problem::not_text(bytes);
        return refuse(match problem.help {
            Some(_) => problem,
            None => problem.help("give a job file: TOML text that begins with format = 1"),
        });
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => read(file, text.to_owned()),
        Err(error) => refuse(not_utf8(bytes, error.valid_up_to())),
    }
}

fn not_utf8(bytes: &[u8], at: usize) -> Problem {
    let line = 1 + bytes.iter().take(at).filter(|byte| **byte == b'\n').count();
    let byte = bytes.get(at).copied().unwrap_or_default();
    Problem::new(format!("the byte 0x{byte:02x} is not UTF-8 text"))
        .at_line(line)
        .help("save the file as UTF-8")
}

/// Reads the text of a job file; `file` is its name for messages.
///
/// # Errors
/// All problems at once, in the order of the text: syntax, missing, unknown and unreadable keys,
/// values out of range, and what does not go together within the job.
pub fn read(file: &str, text: String) -> Result<Job, Problems> {
    if let Some(problem) = unreadable(file, &text) {
        return Err(vec![problem]);
    }
    let sha256 = hash(&text);
    let parts = parts(file, &text)?;
    Ok(Job {
        text,
        file: file.to_owned(),
        sha256,
        format: parts.format,
        job: parts.job,
        site: parts.site,
        house: parts.house,
        past_use: parts.past_use,
        household: parts.household,
        equipment: parts.equipment,
        supplies: parts.supplies,
        options: parts.options,
        prices: parts.prices,
        economics: parts.economics,
        scenarios: parts.scenarios,
        draws: parts.draws,
        vary: parts.vary,
    })
}

/// `[site]` alone, of a text whose other tables may hold any problem; nothing where it has problems itself.
pub fn site_of(file: &str, text: &str) -> Option<SiteSection> {
    let (root, _) = DeTable::parse_recoverable(text);
    let found = Found::new(file, text);
    let section = Table::new(&found, String::new(), 0..0, root.get_ref()).table("site").and_then(site)?;
    found.values.take().is_empty().then_some(section)
}

fn unreadable(file: &str, text: &str) -> Option<Problem> {
    if text.len() > GREATEST_SIZE {
        return Some(
            Problem::new("the text is too large for a job file").in_file(file).allowed("up to 4 MB"),
        );
    }
    let blank = |line: &str| line.trim().is_empty() || line.trim_start().starts_with('#');
    if text.trim_start_matches('\u{feff}').lines().all(blank) {
        let help = "begin it with format = 1 and a [job] table";
        return Some(Problem::new("the file is empty").in_file(file).help(help));
    }
    // Otherwise a weather file given by mistake would be told as a missing value on each of its lines.
    let what = "this is not a job file: no line in it has the form key = value";
    let help = "give a job file: TOML text that begins with format = 1";
    (!text.contains('=')).then(|| Problem::new(what).in_file(file).help(help))
}

/// SHA-256 of the text, in hexadecimal.
fn hash(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// All sections of a job.
struct Parts {
    format: Typed<i64>,
    job: JobSection,
    site: SiteSection,
    house: HouseSection,
    past_use: Option<PastUseSection>,
    household: HouseholdSection,
    equipment: Vec<EquipmentSection>,
    supplies: Vec<SupplySection>,
    options: Vec<OptionSection>,
    prices: PricesSection,
    economics: EconomicsSection,
    scenarios: Vec<ScenarioSection>,
    draws: DrawsSection,
    vary: Vec<VarySection>,
}

fn parts(file: &str, text: &str) -> Result<Parts, Problems> {
    let (root, errors) = DeTable::parse_recoverable(text);
    let found = Found::new(file, text);
    let mut table = Table::new(&found, String::new(), 0..0, root.get_ref());
    let format = table.req("format", format);
    if format.is_none() && table.has("format") {
        // The keys of another format are not known, so nothing more can be said about them.
        return Err(found.values.take());
    }
    let sections = sections(table);
    let problems = gathered(&found, &errors);
    match (sections, format) {
        (Some(sections), Some(format)) if problems.is_empty() => Ok(Parts { format, ..sections }),
        _ if problems.is_empty() => Err(vec![Problem::new("the job cannot be read").in_file(file)]),
        _ => Err(problems),
    }
}

fn format(value: &DeValue<'_>) -> Result<i64, Fault> {
    let typed = value.as_integer().and_then(|n| i64::from_str_radix(n.as_str(), n.radix()).ok());
    match typed {
        Some(FORMAT) => Ok(FORMAT),
        Some(newer) if newer > FORMAT => {
            let fault =
                Fault::new(format!("format {newer} is newer than this program, which reads format {FORMAT}"));
            Err(fault.help("use a newer version of winterledger for this job"))
        }
        _ => {
            let fault = Fault::new(format!("the format of a job file is 1, not {}", described(value)));
            Err(fault.help("write format = 1"))
        }
    }
}

fn sections(mut root: Table<'_>) -> Option<Parts> {
    for key in ["job", "site", "house", "equipment", "option", "prices"] {
        if !root.has(key) {
            root.need(key);
        }
    }
    let job = root.table("job").and_then(job);
    let known = known(&mut root, job.as_ref());
    let site = root.table("site").and_then(site);
    let house = root.table("house").and_then(house);
    let past_use = root.table("past_use").map(past_use);
    let household = root.table("household").map(|table| household(table, &known)).unwrap_or_default();
    let equipment: Vec<_> = listed(&mut root, "equipment").into_iter().map(|t| machine(t, &known)).collect();
    let supplies: Vec<_> = root.tables("supply", "name").into_iter().map(|t| supply(t, &known)).collect();
    let options: Vec<_> = listed(&mut root, "option").into_iter().map(|t| option(t, &known)).collect();
    let prices = root.table("prices").and_then(|table| prices(table, &known));
    let economics = root.table("economics").map(|table| economics(table, &known)).unwrap_or_default();
    let scenarios = scenarios(root.tables("scenario", "name"), &known);
    let draws = root.table("draws").map(draws).unwrap_or_default();
    let vary = inputs(root.tables("vary", "name"), &known);
    if let Some(house) = &house {
        cut_outs(&root, house, equipment.iter().flatten(), options.iter().flatten());
    }
    root.done();
    Some(Parts {
        format: Typed::new(FORMAT, 0..0),
        job: job?,
        site: site?,
        house: house?,
        past_use: past_use.map_or(Some(None), |read| read.map(Some))?,
        household,
        equipment: equipment.into_iter().collect::<Option<_>>()?,
        supplies: supplies.into_iter().collect::<Option<_>>()?,
        options: options.into_iter().collect::<Option<_>>()?,
        prices: prices?,
        economics,
        scenarios: scenarios?,
        draws,
        vary: vary?,
    })
}

/// The tables of a list at the root, at least one.
fn listed<'a>(root: &mut Table<'a>, key: &'static str) -> Vec<Table<'a>> {
    if root.is_empty_list(key)
        && let Some(value) = root.value(key)
    {
        root.bad_value(
            key,
            &value.span(),
            Fault::new("the list is empty").help("at least one entry is needed"),
        );
    }
    root.tables(key, "name")
}

/// Names first, so that a reference to a table that has a problem of its own is still known.
fn known(root: &mut Table<'_>, job: Option<&JobSection>) -> Known {
    let mut zones = root.quietly("house").map(|house| house.quiet_tables("zone")).unwrap_or_default();
    let mut machines = root.quiet_tables("equipment");
    let mut options = root.quiet_tables("option");
    let mut supplies = root.quiet_tables("supply");
    let mut named = Names::of_tables(&mut machines, "machines");
    let mut rooms = Names::of_tables(&mut zones, "zones");
    // Where the house has no zone that can be read, that is told; which names are meant nobody knows.
    rooms.unsure |= rooms.list.is_empty();
    named.unsure |= misspelt(root, "equipment");
    Known {
        zones: rooms,
        machines: named,
        supplies: Names::of_tables(&mut supplies, "supplies"),
        options: Names::of_tables(&mut options, "options"),
        fuels: Names::of_fuels(root.quietly("prices").map(|prices| prices.keys()).unwrap_or_default()),
        currency: job.map_or_else(|| "$".to_owned(), |job| job.currency.value.clone()),
    }
}

/// Whether a header stands there whose name is most likely meant to be this one.
fn misspelt(root: &Table<'_>, name: &str) -> bool {
    let known =
        ["job", "site", "house", name, "supply", "option", "prices", "economics", "scenario", "draws"];
    let keys = root.keys();
    keys.iter().any(|key| key.value != name && closest(&key.value, known) == Some(name))
}

/// Problems in the order of the text. Where the text does not parse, only those are told that are
/// true all the same.
fn gathered(found: &Found<'_>, errors: &[toml::de::Error]) -> Problems {
    let mut problems = syntax::problems(found.file, found.text, errors);
    let values = found.values.take();
    if problems.is_empty() {
        problems.extend(values);
        problems.extend(found.form.take());
    } else if !syntax::hides_the_rest(found.text, errors) {
        let lines: Vec<_> = problems.iter().map(|problem| problem.line).collect();
        problems.extend(
            values.into_iter().filter(|problem| problem.line.is_some() && !lines.contains(&problem.line)),
        );
    }
    problems.sort_by_key(|problem| problem.span.as_ref().map(|span| span.start));
    if problems.len() >= MOST_PROBLEMS {
        problems.truncate(MOST_PROBLEMS - 1);
        let what = "there are more problems than are listed here";
        problems.push(Problem::new(what).in_file(found.file).help("mend these first"));
    }
    problems
}
