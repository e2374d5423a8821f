//! One TOML table, asked key by key: values with their places, and every problem collected.
//!
//! Must never know which keys a table has: the readers ask for them. Start at [`Table`].

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::found::Found;
use super::path::join;
use super::typed::Typed;
use super::wording::{Fault, described, quoted};

/// One table while it is read.
pub(super) struct Table<'a> {
    pub(super) found: &'a Found<'a>,
    /// Its key path, for messages.
    pub(super) path: String,
    /// Its header, or the whole of an inline table.
    pub(super) span: Range<usize>,
    entries: &'a DeTable<'a>,
    pub(super) asked: Vec<&'static str>,
    pub(super) missing: Vec<&'static str>,
}

impl<'a> Table<'a> {
    pub(super) fn new(
        found: &'a Found<'a>,
        path: String,
        span: Range<usize>,
        entries: &'a DeTable<'a>,
    ) -> Self {
        Self { found, path, span, entries, asked: Vec::new(), missing: Vec::new() }
    }

    /// The raw value of a key.
    pub(super) fn value(&mut self, key: &'static str) -> Option<&'a Spanned<DeValue<'a>>> {
        if !self.asked.contains(&key) {
            self.asked.push(key);
        }
        self.entries.get(key)
    }

    /// Whether a key is there, readable or not.
    pub(super) fn has(&self, key: &str) -> bool {
        self.entries.contains_key(key)
    }

    /// Whether a key holds an empty list.
    pub(super) fn is_empty_list(&self, key: &str) -> bool {
        self.entries
            .get(key)
            .and_then(|value| value.get_ref().as_array())
            .is_some_and(|items| items.is_empty())
    }

    /// A value as it stands in the text, without its quotation marks, for messages.
    pub(super) fn typed(&self, span: &Range<usize>) -> String {
        let text = self.found.text.get(span.clone()).unwrap_or_default();
        quoted(text.trim_matches(['"', '\''])).trim_matches('\'').to_owned()
    }

    /// A text, silently: for names that are needed before their table is read.
    pub(super) fn raw_text(&self, key: &str) -> Option<Typed<String>> {
        let value = self.entries.get(key)?;
        value.get_ref().as_str().map(|text| Typed::new(text.to_owned(), value.span()))
    }

    /// The keys that are there, in the order of the text.
    pub(super) fn keys(&self) -> Vec<Typed<String>> {
        let mut keys: Vec<_> =
            self.entries.keys().map(|key| Typed::new(key.get_ref().to_string(), key.span())).collect();
        keys.sort_by_key(|key| key.span.start);
        keys
    }

    /// A key that may be left out.
    pub(super) fn opt<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&DeValue<'a>) -> Result<T, Fault>,
    ) -> Option<Typed<T>> {
        let value = self.value(key)?;
        match read(value.get_ref()) {
            Ok(read) => Some(Typed::new(read, value.span())),
            Err(fault) => {
                self.bad_value(key, &value.span(), fault);
                None
            }
        }
    }

    /// The value of a key that is not known beforehand and is there, such as a fuel's id.
    pub(super) fn known<T>(
        &self,
        key: &str,
        read: impl FnOnce(&DeValue<'a>) -> Result<T, Fault>,
    ) -> Option<Typed<T>> {
        let value = self.entries.get(key)?;
        let read = read(value.get_ref()).map_err(|fault| self.bad_value(key, &value.span(), fault));
        read.ok().map(|read| Typed::new(read, value.span()))
    }

    /// A key that must be there.
    pub(super) fn req<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&DeValue<'a>) -> Result<T, Fault>,
    ) -> Option<Typed<T>> {
        if !self.has(key) {
            self.need(key);
        }
        self.opt(key, read)
    }

    /// Notes a key as missing; [`Self::done`] tells it, or folds it with its misspelling.
    pub(super) fn need(&mut self, key: &'static str) {
        if !self.missing.contains(&key) {
            self.missing.push(key);
        }
    }

    /// Two keys that have a meaning only together.
    pub(super) fn need_both(&mut self, one: &'static str, other: &'static str) {
        match (self.has(one), self.has(other)) {
            (true, false) => self.need(other),
            (false, true) => self.need(one),
            _ => {}
        }
    }

    /// A list of values of one sort, at least one.
    pub(super) fn list<T>(
        &mut self,
        key: &'static str,
        read: impl Fn(&DeValue<'a>) -> Result<T, Fault>,
    ) -> Option<Typed<Vec<Typed<T>>>> {
        let value = self.value(key)?;
        let Some(items) = value.get_ref().as_array().filter(|items| !items.is_empty()) else {
            self.bad_value(key, &value.span(), list_fault(key, value.get_ref()));
            return None;
        };
        let path = join(&self.path, key);
        let mut list = Vec::new();
        for (i, item) in items.iter().enumerate() {
            match read(item.get_ref()) {
                Ok(read) => list.push(Typed::new(read, item.span())),
                Err(fault) => {
                    self.found.push(
                        &self.found.values,
                        &item.span(),
                        &join(&path, &(i + 1).to_string()),
                        fault,
                    );
                }
            }
        }
        (list.len() == items.len()).then(|| Typed::new(list, value.span()))
    }

    /// A table inside this one.
    pub(super) fn table(&mut self, key: &'static str) -> Option<Table<'a>> {
        let value = self.value(key)?;
        self.as_table(key, value)
    }

    /// The table under a key that is not known beforehand, such as a fuel's id.
    pub(super) fn table_of(&self, key: &str) -> Option<Table<'a>> {
        self.as_table(key, self.entries.get(key)?)
    }

    fn as_table(&self, key: &str, value: &'a Spanned<DeValue<'a>>) -> Option<Table<'a>> {
        let path = join(&self.path, key);
        let Some(entries) = value.get_ref().as_table() else {
            let fault = Fault::new(format!("a table is needed here, not {}", described(value.get_ref())));
            self.bad_value(
                key,
                &value.span(),
                fault.help(format!("write a header [{path}] and the keys below it")),
            );
            return None;
        };
        Some(Table::new(self.found, path, value.span(), entries))
    }

    /// The tables of a list; `label` is the key whose value names each in key paths.
    pub(super) fn tables(&mut self, key: &'static str, label: &str) -> Vec<Table<'a>> {
        let Some(value) = self.value(key) else { return Vec::new() };
        let path = join(&self.path, key);
        let Some(items) = value.get_ref().as_array() else {
            let fault =
                Fault::new(format!("a list of tables is needed here, not {}", described(value.get_ref())));
            self.bad_value(key, &value.span(), fault.help(list_help(key, label, &path)));
            return Vec::new();
        };
        self.entry_tables(key, items, label, false)
    }

    fn entry_tables(
        &self,
        key: &str,
        items: &'a [Spanned<DeValue<'a>>],
        label: &str,
        quiet: bool,
    ) -> Vec<Table<'a>> {
        let path = join(&self.path, key);
        let mut tables = Vec::new();
        for (i, item) in items.iter().enumerate() {
            let number = (i + 1).to_string();
            let Some(entries) = item.get_ref().as_table() else {
                if !quiet {
                    let fault =
                        Fault::new(format!("a table is needed here, not {}", described(item.get_ref())));
                    let fault = fault.help("write { key = value, ... }");
                    self.found.push(&self.found.values, &item.span(), &join(&path, &number), fault);
                }
                continue;
            };
            let name =
                entries.get(label).and_then(|name| name.get_ref().as_str()).filter(|name| sayable(name));
            let path = join(&path, name.unwrap_or(&number));
            tables.push(Table::new(self.found, path, item.span(), entries));
        }
        tables
    }

    /// A table inside this one, silently: for names that are needed before their table is read.
    pub(super) fn quietly(&self, key: &str) -> Option<Table<'a>> {
        let value = self.entries.get(key)?;
        let entries = value.get_ref().as_table()?;
        Some(Table::new(self.found, join(&self.path, key), value.span(), entries))
    }

    /// The tables of a list, silently.
    pub(super) fn quiet_tables(&self, key: &str) -> Vec<Table<'a>> {
        match self.entries.get(key).map(|value| value.get_ref()) {
            Some(DeValue::Array(items)) => self.entry_tables(key, items, "name", true),
            _ => Vec::new(),
        }
    }

    /// A key's value that cannot be read.
    pub(super) fn bad_value(&self, key: &str, span: &Range<usize>, fault: Fault) {
        self.found.push(&self.found.values, span, &join(&self.path, key), fault);
    }

    /// Keys that do not go together, or a name that is not known.
    pub(super) fn bad_form(&self, key: &str, span: &Range<usize>, fault: Fault) {
        self.found.push(&self.found.form, span, &join(&self.path, key), fault);
    }
}

fn list_fault(key: &str, value: &DeValue<'_>) -> Fault {
    match value {
        DeValue::Array(_) => Fault::new("the list is empty").help("at least one entry is needed"),
        DeValue::String(text) => {
            let parts: Vec<_> =
                text.split([',', '+', ';']).map(|part| format!("\"{}\"", part.trim())).collect();
            let list = if text.contains(['"', '\n']) { String::new() } else { parts.join(", ") };
            Fault::new(format!("a list is needed here, not {}", described(value)))
                .help(format!("put it in brackets: {key} = [{list}]"))
        }
        _ => Fault::new(format!("a list is needed here, not {}", described(value))),
    }
}

/// Whether a name can stand in a key path.
fn sayable(name: &str) -> bool {
    !name.trim().is_empty() && name.chars().nth(80).is_none() && !name.chars().any(char::is_control)
}

/// Entries without names are short enough for one line, and may be none.
fn list_help(key: &str, label: &str, path: &str) -> String {
    match (key, label) {
        ("set_back", "") => {
            "write [] for none, or [{ from = \"22:00\", to = \"06:00\", set_point = \"64 degF\" }]".to_owned()
        }
        _ => format!("begin each with its own header [[{}]]", plain(path)),
    }
}

/// A path as it stands in a header: without names of list entries.
fn plain(path: &str) -> String {
    let parts: Vec<_> = path.split('.').collect();
    match (parts.first(), parts.last()) {
        (Some(&"prices"), _) => path.to_owned(),
        (Some(&"house"), Some(last)) if parts.len() > 3 => format!("house.zone.{last}"),
        (Some(first), Some(last)) if parts.len() > 1 => format!("{first}.{last}"),
        _ => path.to_owned(),
    }
}
