//! The names that a job gives to zones, machines, options and fuels: unique, and known where used.
//!
//! Reads names straight from the tables, so that a name is known even if the rest of its table is
//! not readable. Must never know what a name stands for. Start at [`Known`].

use std::collections::BTreeMap;
use std::ops::Range;

use super::table::Table;
use super::typed::Typed;
use super::wording::{Fault, closest, quoted};
use crate::fuel::{is_some_gas, meant_by};

/// All names of a job.
#[derive(Debug, Default)]
pub(super) struct Known {
    /// Zones of the house.
    pub(super) zones: Names,
    /// Machines, each with its `kind` as typed.
    pub(super) machines: Names,
    /// Stores of delivered fuels.
    pub(super) supplies: Names,
    /// Options.
    pub(super) options: Names,
    /// Fuels with a price; their kind is empty.
    pub(super) fuels: Names,
    /// The job's currency sign.
    pub(super) currency: String,
}

/// The names of one sort of table.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// Names in the order of the text.
    pub(super) list: Vec<String>,
    /// The kind of each, as typed; looked up, since a file may hold very many.
    kinds: BTreeMap<String, String>,
    /// Whether a table's name cannot be read, or comes twice: then an unknown name may be that one.
    pub(super) unsure: bool,
}

impl Names {
    /// The names of tables; those that come twice are told, at the second place.
    pub(super) fn of_tables(tables: &mut [Table<'_>], sort: &str) -> Self {
        let mut names = Self::default();
        let mut seen: BTreeMap<String, Range<usize>> = BTreeMap::new();
        for table in tables {
            let kind = table.raw_text("kind").map(|kind| kind.value).unwrap_or_default();
            let Some(name) = table.raw_text("name") else {
                names.unsure = true;
                continue;
            };
            if seen.insert(name.value.clone(), name.span.clone()).is_some() {
                let fault = Fault::new(format!("two {sort} are named {}", quoted(&name.value)));
                table.bad_form("name", &name.span, fault.help("give each its own name"));
                names.is_twice(&name.value);
                continue;
            }
            names.add(name.value, kind);
        }
        names
    }

    /// Fuels that are keys of a table; one that is named as the trade or a slip names it counts as the one that is
    /// meant, which is told where it stands.
    pub(super) fn of_fuels(keys: Vec<Typed<String>>) -> Self {
        let mut names = Self::default();
        for key in keys {
            if is_some_gas(&key.value) {
                names.add("natural_gas".to_owned(), String::new());
                names.add("propane".to_owned(), String::new());
            }
            names.add(meant_by(&key.value).map_or(key.value, str::to_owned), String::new());
        }
        names
    }

    /// Of two tables of one name nobody knows which is meant, nor what the other should be called.
    fn is_twice(&mut self, name: &str) {
        self.unsure = true;
        self.kinds.remove(name);
    }

    fn add(&mut self, name: String, kind: String) {
        self.kinds.insert(name.clone(), kind);
        self.list.push(name);
    }

    /// The kind of the machine of that name.
    pub(super) fn kind(&self, name: &str) -> Option<&str> {
        self.kinds.get(name).map(String::as_str)
    }

    /// The names that are worth suggesting: of a very long list only the first.
    fn nearby(&self) -> Vec<&str> {
        self.list.iter().take(200).map(String::as_str).collect()
    }

    /// The names in a text that holds several of them, as they should stand in a list.
    pub(super) fn several(&self, text: &str) -> Option<String> {
        if self.kinds.contains_key(text) {
            return None;
        }
        let parts: Vec<&str> = text.split([',', ';', '+', '&']).map(str::trim).collect();
        let near = |part: &&str| closest(part, self.nearby());
        let names: Vec<&str> = parts.iter().map(near).collect::<Option<_>>()?;
        let shown: Vec<String> =
            names.iter().map(|name| format!("\"{}\"", quoted(name).trim_matches('\''))).collect();
        (names.len() > 1).then(|| shown.join(", "))
    }

    /// What is wrong with a name that should be one of these.
    pub(super) fn fault(&self, name: &str, sort: &str) -> Option<Fault> {
        if self.unsure || self.kinds.contains_key(name) {
            return None;
        }
        let names = self.nearby();
        let fault = Fault::new(format!("no {sort} is named {}", quoted(name)));
        Some(match closest(name, names.iter().copied()) {
            Some(near) => fault.help(format!("did you mean {}?", quoted(near))),
            None if names.is_empty() => fault,
            None => {
                fault.allowed(names.iter().take(30).map(|name| quoted(name)).collect::<Vec<_>>().join(", "))
            }
        })
    }
}

impl Known {
    /// Tells if the job has no price for a furnace's fuel.
    pub(super) fn fuel(&self, table: &Table<'_>, fuel: &Typed<String>) {
        if self.fuels.kind(fuel).is_some() {
            return;
        }
        let fault = Fault::new(format!("the job has no price for {}", quoted(fuel)));
        let near =
            meant_by(fuel).filter(|near| *near != fuel.value).or_else(|| closest(fuel, self.fuels.nearby()));
        let priced = near.is_some_and(|near| self.fuels.kind(near).is_some());
        let help = match near {
            None if is_some_gas(fuel) => "write \"natural_gas\" or \"propane\"".to_owned(),
            Some(near) if priced => format!("did you mean {}?", quoted(near)),
            Some(near) => format!("did you mean {}? Then add a table [prices.{near}] too", quoted(near)),
            None => format!("add a table [prices.{}] with its price", quoted(fuel).trim_matches('\'')),
        };
        table.bad_form("fuel", &fuel.span, fault.help(help));
    }
}
