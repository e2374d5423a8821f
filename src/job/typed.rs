//! One value as it was typed, with the place in the text where it stands; and clock times.
//!
//! Must never know which keys exist. Start at [`Typed`].

use std::fmt;
use std::ops::{Deref, Range};

/// A value and the bytes of the job text that it was read from.
///
/// ```
/// use winterledger::job::Typed;
/// let typed = Typed::new(0.95, 10..14);
/// assert_eq!(*typed, 0.95);
/// assert_eq!(typed.span, 10..14);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Typed<T> {
    /// What was typed, read.
    pub value: T,
    /// Bytes of the job text, quotation marks included.
    pub span: Range<usize>,
}

impl<T> Typed<T> {
    /// Puts a value and its place together.
    pub fn new(value: T, span: Range<usize>) -> Self {
        Self { value, span }
    }
}

impl<T> Deref for Typed<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

/// A time of day on the wall clock, 00:00 to 23:59.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct ClockTime {
    /// Hour, 0 to 23.
    pub hour: u8,
    /// Minute, 0 to 59.
    pub minute: u8,
}

impl ClockTime {
    /// Reads `"22:00"`, `"10 pm"` or `"10:00 PM"`; `None` for anything else.
    ///
    /// ```
    /// use winterledger::job::ClockTime;
    /// assert_eq!(ClockTime::parse("6:30"), Some(ClockTime { hour: 6, minute: 30 }));
    /// assert_eq!(ClockTime::parse("10pm"), Some(ClockTime { hour: 22, minute: 0 }));
    /// assert_eq!(ClockTime::parse("12:30 am"), Some(ClockTime { hour: 0, minute: 30 }));
    /// assert_eq!(ClockTime::parse("24:00"), None);
    /// ```
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim().to_lowercase();
        if let Some((half, text)) =
            [("am", 0), ("pm", 12)].iter().find_map(|(end, h)| Some((h, text.strip_suffix(end)?.trim())))
        {
            let text = if text.contains(':') { text.to_owned() } else { format!("{text}:00") };
            let Self { hour, minute } = Self::parse(&text).filter(|time| (1..=12).contains(&time.hour))?;
            return Some(Self { hour: hour % 12 + half, minute });
        }
        let (hour, minute) = text.split_once(':')?;
        let digits = |s: &str| !s.is_empty() && s.len() <= 2 && s.bytes().all(|b| b.is_ascii_digit());
        if !digits(hour) || !digits(minute) || minute.len() != 2 {
            return None;
        }
        let (hour, minute) = (hour.parse().ok()?, minute.parse().ok()?);
        (hour < 24 && minute < 60).then_some(Self { hour, minute })
    }
}

impl fmt::Display for ClockTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}:{:02}", self.hour, self.minute)
    }
}
