//! A date with the name of its month, or of its weekday, into the same in digits and what stands behind it.
//!
//! A month's name can mean one thing only, so day, month and year may stand in any order. Must never know a time
//! of day. Start at [`named`].

use chrono::{Month, Weekday};

/// Year, month and day of `31 January 2015 …`, `Jan 31, 2015 …`, `Sat, 31-Jan-2015 …`, and the rest of the text.
pub(super) fn named(text: &str) -> Option<((i32, u32, u32), &str)> {
    let mut rest = without_weekday(text);
    let (mut year, mut month, mut day) = (None, None, None);
    for _ in 0..3 {
        let (word, behind) = first_word(rest)?;
        match word.len() {
            4 if year.is_none() && is_digits(word) => year = word.parse().ok(),
            1 | 2 if day.is_none() && is_digits(word) => day = word.parse().ok(),
            _ if month.is_none() => month = Some(word.parse::<Month>().ok()?.number_from_month()),
            _ => return None,
        }
        rest = behind;
    }
    Some(((year?, month?, day?), rest.trim_start_matches([' ', ',', 'T', ':'])))
}

/// The text behind the name of a weekday with which it may begin.
pub(super) fn without_weekday(text: &str) -> &str {
    match first_word(text) {
        Some((word, rest)) if word.parse::<Weekday>().is_ok() => rest.trim_start_matches([' ', ',', '.']),
        _ => text,
    }
}

/// The first digits, or the first letters, behind what parts a date; and what follows.
fn first_word(text: &str) -> Option<(&str, &str)> {
    let text = text.trim_start_matches([' ', ',', '-', '/', '.']);
    let first = text.chars().next()?;
    let alike =
        |c: char| c.is_alphabetic() == first.is_alphabetic() && c.is_ascii_digit() == first.is_ascii_digit();
    let end = text.find(|c| !alike(c)).unwrap_or(text.len());
    (first.is_alphabetic() || first.is_ascii_digit()).then_some(text.split_at(end))
}

fn is_digits(word: &str) -> bool {
    word.bytes().all(|byte| byte.is_ascii_digit())
}
