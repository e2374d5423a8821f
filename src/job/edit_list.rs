//! Adds an entry to a list of tables of a job, everything else kept byte for byte.
//!
//! Start at [`add`].

use toml::de::{DeTable, DeValue};

use super::edit::set;
use super::path::split;
use crate::problem::Problem;

/// Adds an entry to the list of tables at `key_path` and returns the new text.
///
/// The path names tables by their keys; lists on the way are not looked into. `keys` are the entry's
/// keys and values as TOML writes them. A list whose entries have headers gets another at the end of
/// the text, a list in brackets is added to within them, and one that is not there is made.
///
/// ```
/// use winterledger::job::edit_list::add;
/// let text = "[prices.propane]\nprice = \"2 $/gal\"\n";
/// let keys = [("name", "\"n\"".to_owned()), ("times", "2.0".to_owned())];
/// let once = add(text, "prices.propane.spike", &keys).unwrap();
/// assert_eq!(once, format!("{text}spike = [{{ name = \"n\", times = 2.0 }}]\n"));
/// assert!(add(&once, "prices.propane.spike", &keys).unwrap().ends_with("2.0 }, { name = \"n\", times = 2.0 }]\n"));
/// ```
///
/// # Errors
/// A path that leads nowhere or to something that is no list, or a text that is not TOML.
pub fn add(text: &str, key_path: &str, keys: &[(&str, String)]) -> Result<String, Problem> {
    let refuse = |what: &str| Problem::new(what.to_owned()).at_key(key_path);
    let root = DeTable::parse(text).map_err(|error| refuse(error.message()))?;
    let pairs: Vec<String> = keys.iter().map(|(key, value)| format!("{key} = {value}")).collect();
    let inline = format!("{{ {} }}", pairs.join(", "));
    let mut parts = split(key_path).ok_or_else(|| refuse("this is not a key path"))?.into_iter();
    let first = parts.next().unwrap_or_default();
    let mut found = root.get_ref().get(first.as_str());
    for part in parts {
        found = found.and_then(|value| value.get_ref().as_table()?.get(part.as_str()));
    }
    let Some(found) = found else { return set(text, key_path, &format!("[{inline}]")) };
    let DeValue::Array(list) = found.get_ref() else { return Err(refuse("this is not a list")) };
    let span = found.span();
    let is_inline = text.get(span.start..).is_some_and(|rest| rest.starts_with('['))
        && !text.get(span.start..).is_some_and(|rest| rest.starts_with("[["));
    let changed = match list.iter().last() {
        Some(last) if is_inline => inserted(text, last.span().end, &format!(", {inline}")),
        None if is_inline => inserted(text, span.start + 1, &inline),
        _ => {
            let end = if text.contains("\r\n") { "\r\n" } else { "\n" };
            let gap = if text.ends_with('\n') { "" } else { end };
            Some(format!("{text}{gap}[[{key_path}]]{end}{}{end}", pairs.join(end)))
        }
    };
    let changed = changed.ok_or_else(|| refuse("the list cannot be added to"))?;
    DeTable::parse(&changed).map_err(|error| refuse(error.message()))?;
    Ok(changed)
}

fn inserted(text: &str, at: usize, new: &str) -> Option<String> {
    let (before, after) = text.split_at_checked(at)?;
    Some(format!("{before}{new}{after}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spike(text: &str) -> String {
        add(text, "prices.propane.spike", &[("times", "2.0".to_owned())]).unwrap()
    }

    #[test]
    fn a_list_with_headers_gets_another_and_one_in_brackets_keeps_its_form() {
        let headers = "[prices.propane]\nprice = 1\n[[prices.propane.spike]]\ntimes = 3.0\n\n[x]\na = 1";
        assert_eq!(spike(headers), format!("{headers}\n[[prices.propane.spike]]\ntimes = 2.0\n"));
        let inline = "[prices.propane]\nspike = [\n  { times = 3.0 }, # one\n]\nb = 2\n";
        assert_eq!(spike(inline), inline.replace("3.0 },", "3.0 }, { times = 2.0 },"));
        assert_eq!(spike("prices.propane.spike = []\n"), "prices.propane.spike = [{ times = 2.0 }]\n");
        assert!(add("a = 1\n", "a", &[]).is_err());
        assert!(add("a = 1\n", "b.c", &[]).is_err());
    }
}
