//! The keys of a table as a whole: one of several, missing ones, unknown ones and what was meant.
//!
//! Must never know which keys a table has: only which were asked for. Start at [`Table::done`].

use std::collections::BTreeSet;

use super::examples::example;
use super::table::Table;
use super::typed::Typed;
use super::wording::{Fault, closest, quoted};

impl Table<'_> {
    /// Exactly one of two keys must be there; tells if not so, and which one it is.
    pub(super) fn one_of(&mut self, first: &'static str, second: &'static str) -> Option<&'static str> {
        self.one_of_many(&[first, second])
    }

    /// Exactly one of the keys must be there; tells if not so, and which one it is.
    pub(super) fn one_of_many(&mut self, keys: &[&'static str]) -> Option<&'static str> {
        let given: Vec<_> = keys.iter().filter_map(|key| Some((*key, self.value(key)?.span()))).collect();
        match given.as_slice() {
            [] => {
                self.need(keys.first()?);
                None
            }
            [(only, _)] => Some(only),
            [(first, _), (second, span), ..] => {
                let fault =
                    Fault::new(format!("{first} and {second} are both given; only one of them can hold"));
                self.bad_form(second, span, fault.help(format!("take {first} or {second} out")));
                None
            }
        }
    }

    /// Tells only what is missing or misspelt, where the known keys cannot be listed.
    pub(super) fn done_but_unknown(mut self) {
        for key in self.keys() {
            if !self.asked.contains(&key.value.as_str())
                && closest(&key.value, self.missing.iter().copied()).is_some()
            {
                self.unknown(&key);
            }
        }
        self.tell_missing();
    }

    /// Tells the keys that nobody asked for and those that are missing.
    pub(super) fn done(mut self) {
        for key in self.keys() {
            if !self.found.is_full() && !self.asked.contains(&key.value.as_str()) {
                self.unknown(&key);
            }
        }
        self.tell_missing();
    }

    fn tell_missing(&self) {
        for key in &self.missing {
            let sort = if self.path.is_empty() && *key != "format" { "table" } else { "key" };
            let fault = Fault::new(format!("this {sort} is missing"));
            let example = example(&self.path, key);
            let inline = self.found.text.get(self.span.clone()).is_some_and(|text| text.starts_with('{'));
            let help = match inline || sort == "table" {
                true => format!("add {example}"),
                false => format!("add a line such as {example}"),
            };
            self.bad_form(key, &self.span, fault.help(help));
        }
    }

    /// Whether this is the table that a key is at home in, so that it has been read under another name.
    fn stands_in(&self, home: &str) -> bool {
        let own = self.path.split('.').next().unwrap_or_default();
        !own.is_empty() && home.trim_start_matches('[').trim_end_matches(']') == own
    }

    fn unknown(&mut self, key: &Typed<String>) {
        let absent = self.asked.iter().copied().filter(|known| !self.has(known)).collect::<BTreeSet<_>>();
        // A header such as [[house.zone]] makes house there, though [House] was meant to be it.
        let same = self.asked.iter().copied().find(|known| known.eq_ignore_ascii_case(&key.value));
        let tables = self.asked.iter().copied().filter(|_| self.path.is_empty());
        let label = self.asked.iter().copied().find(|known| is_of_label(known, &key.value));
        let same = same.or(label);
        let part = absent.iter().copied().find(|known| is_part(known, &key.value));
        let rating = is_rating(&key.value) && label.is_none();
        let same = same.or(part);
        let near = if rating { None } else { same.or_else(|| closest(&key.value, absent.iter().copied())) };
        let home = home(&key.value).filter(|home| near.is_none() && !self.stands_in(home));
        let tables = tables.filter(|_| home.is_none());
        let near = near.or_else(|| if rating { None } else { closest(&key.value, tables) });
        let shown = quoted(&key.value);
        match near.and_then(|near| self.missing.iter().position(|missing| *missing == near)) {
            Some(at) => {
                let near = self.missing.remove(at);
                let fault = Fault::new(format!("{shown} is not a known key, and {near} is missing"));
                self.bad_form(near, &key.span, fault.help(meant(near, &key.value)));
            }
            None => {
                let fault = Fault::new("this key is not known here").allowed(self.asked.join(", "));
                let fault = match near {
                    Some(near) => Fault { allowed: None, ..fault.help(meant(near, &key.value)) },
                    None if rating => fault.help(RATING),
                    None if key.value == "output" => fault.help("input is the fuel burned: output over afue"),
                    None => match home {
                        Some(home) => Fault { allowed: None, ..fault.help(format!("it belongs to {home}")) },
                        None => fault.help("take it out, or see whether it belongs to another table"),
                    },
                };
                self.bad_form(&key.value, &key.span, fault);
            }
        }
    }
}

/// What a row has in place of a rating.
const RATING: &str = "a row has its own COP, or the draw beside the output: an EER over 3.412 is the COP, a \
                      seasonal rating is of a whole machine";

fn is_rating(typed: &str) -> bool {
    ["hspf", "seer", "eer"].iter().any(|rating| typed.to_lowercase().contains(rating))
}

/// Whether what is typed is a key without its first words: `cop` of `greatest_cop`.
fn is_part(known: &str, typed: &str) -> bool {
    let typed = typed.to_lowercase();
    matches!((known, typed.as_str()), ("greatest_cop", "cop") | ("greatest", "capacity" | "max" | "maximum"))
}

/// Where a key stands that is often put elsewhere.
fn home(key: &str) -> Option<&'static str> {
    Some(match key.to_lowercase().as_str() {
        "title" | "currency" | "units" | "customer" | "prepared_by" | "date" => "[job]",
        "weather" | "weather_file" | "elevation" | "extreme_low" | "time_zone" | "site_offset" => "[site]",
        "floor_area" | "panel_spare" | "load_uncertainty" => "[house]",
        "design_load"
        | "design_temperature"
        | "indoor"
        | "balance_temperature"
        | "duct_efficiency"
        | "set_back"
        | "design_load_includes_ducts"
        | "cooling_design_load"
        | "heat_capacity" => "[[house.zone]]",
        "capacity_basis" | "cut_out" | "afue" | "blower" | "stages" | "kind" | "input" => "[[equipment]]",
        "cost" | "incentive" | "loan" | "upkeep" => "[[option]]",
        "heating" | "compressor_lockout" | "sharing" => "[[option.zone]]",
        "fixed" | "price_by_month" | "price_by_season" | "rider" | "spike" => {
            "a table such as [prices.electricity]"
        }
        "zone" | "zones" => "the house: begin it with [[house.zone]]",
        "propane" | "electricity" | "natural_gas" | "oil_no_2" | "cord_wood" | "pellets" => {
            "[prices]: begin it with [prices.], then the fuel"
        }
        "machines" | "machine" => "equipment: begin each machine with [[equipment]]",
        _ => return None,
    })
}

/// Whether a key takes the rating that was typed as the trade says it, such as `HSPF` or `seer2`.
fn is_of_label(known: &str, typed: &str) -> bool {
    let (known, typed) = (known.strip_prefix("label_").unwrap_or(known), typed.to_lowercase());
    known.ends_with('2') && known.trim_end_matches('2') == typed.trim_end_matches('2')
}

fn meant(near: &str, typed: &str) -> String {
    if near == "panel_spare" && typed.starts_with("panel") {
        return "did you mean panel_spare? It takes what the panel can still carry beside all that is on it, not \
                its size"
            .into();
    }
    if !is_of_label(near, typed) || typed.ends_with('2') {
        return format!("did you mean {near}?");
    }
    let (new, old) = (near.trim_start_matches("label_").to_uppercase(), typed.to_uppercase());
    format!(
        "did you mean {near}? It takes the {new} of a label; the {old} of an older label is another \
         rating and reads higher: look the {new} up by the model number"
    )
}
