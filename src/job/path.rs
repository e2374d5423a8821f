//! Key paths such as `house.zone.main.design_load`: parts into text, and text into parts.
//!
//! A part that holds a point or a quotation mark stands in quotation marks:
//! `equipment."a.b".cut_out`. Must never know which keys exist. Start at [`split`].

/// Adds a part to a path, in quotation marks where it needs them.
///
/// ```
/// use winterledger::job::path::join;
/// assert_eq!(join("equipment", "main heat pump"), "equipment.main heat pump");
/// assert_eq!(join("equipment", "no. 1"), "equipment.\"no. 1\"");
/// ```
pub fn join(path: &str, part: &str) -> String {
    let bare = !part.is_empty() && part.trim() == part && !part.contains(['.', '"', '\\']);
    let part = if bare {
        part.to_owned()
    } else {
        format!("\"{}\"", part.replace('\\', "\\\\").replace('"', "\\\""))
    };
    if path.is_empty() { part } else { format!("{path}.{part}") }
}

/// Takes a path apart; `None` if a part is empty or a quotation mark is not closed.
///
/// ```
/// use winterledger::job::path::split;
/// assert_eq!(split("equipment.\"no. 1\".cut_out").unwrap(), ["equipment", "no. 1", "cut_out"]);
/// assert_eq!(split("house..zone"), None);
/// ```
pub fn split(path: &str) -> Option<Vec<String>> {
    let mut parts = Vec::new();
    let mut rest = path.trim();
    loop {
        let (part, after) = match rest.strip_prefix('"') {
            Some(quoted) => quoted_part(quoted)?,
            None => bare_part(rest)?,
        };
        parts.push(part);
        let after = after.trim_start();
        if after.is_empty() {
            return Some(parts);
        }
        rest = after.strip_prefix('.')?.trim_start();
    }
}

fn bare_part(text: &str) -> Option<(String, &str)> {
    let end = text.find('.').unwrap_or(text.len());
    let (part, after) = text.split_at_checked(end)?;
    let part = part.trim();
    (!part.is_empty() && !part.contains('"')).then(|| (part.to_owned(), after))
}

fn quoted_part(text: &str) -> Option<(String, &str)> {
    let mut part = String::new();
    let mut letters = text.char_indices();
    while let Some((at, letter)) = letters.next() {
        match letter {
            '"' => return Some((part, text.get(at + 1..)?)),
            '\\' => part.push(letters.next()?.1),
            other => part.push(other),
        }
    }
    None
}
