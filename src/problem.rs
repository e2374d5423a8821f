//! One thing wrong with what was given: where it stands, what was found, what would be right.
//!
//! Readers of weather and jobs collect these instead of stopping at the first; `cli` words the
//! frame around them. This module must never know what file it speaks of. Start at [`Problem`].

use std::fmt;
use std::ops::Range;

/// One thing wrong with a file, a key or an argument.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Problem {
    /// What is wrong, as a short sentence without a full stop; holds the value that was found.
    pub what: String,
    /// The file's name as given, where there is one.
    pub file: Option<String>,
    /// The line, counted from 1.
    pub line: Option<usize>,
    /// The key's path (`house.zone.main.design_load`) or the column's name.
    pub key: Option<String>,
    /// Bytes of the text that are at fault, where the text is at hand; of `excerpt` where there is one.
    pub span: Option<Range<usize>>,
    /// The line itself, for inputs that are not kept: weather files are read line by line.
    pub excerpt: Option<String>,
    /// The range or list of what is allowed.
    pub allowed: Option<String>,
    /// What to do about it.
    pub help: Option<String>,
    /// How many more of the same kind there are that are not told one by one.
    pub more: usize,
}

impl Problem {
    /// That a file has bytes which no text has, and what it is as far as its first bytes tell.
    ///
    /// ```
    /// use winterledger::problem::Problem;
    /// assert_eq!(Problem::not_text(b"PK\x03\x04\x14\0").what, "the file is a zip archive, not text");
    /// assert_eq!(Problem::not_text(b"f\0o\0r\0m\0").what, "the file looks like UTF-16 text");
    /// assert_eq!(Problem::not_text(b"\x7fELF\0").help, None);
    /// ```
    pub fn not_text(first: &[u8]) -> Self {
        if first.starts_with(b"PK\x03\x04") {
            return Self::new("the file is a zip archive, not text")
                .help("Unpack it and give the text in it; of a spreadsheet, save one sheet as CSV (UTF-8)");
        }
        let begin = first.get(..first.len().min(64)).unwrap_or_default();
        let every_other = |at: usize| {
            let mut bytes = begin.iter().skip(at).step_by(2).peekable();
            bytes.peek().is_some() && bytes.all(|byte| *byte == 0)
        };
        // One of the two bytes of each letter; in other files NUL bytes stand together.
        match every_other(0) != every_other(1) {
            true => Self::new("the file looks like UTF-16 text").help("Save it as UTF-8"),
            false => Self::new("the file is not text: it has NUL bytes"),
        }
    }

    /// A problem with only its sentence; the other parts are added by the methods below.
    pub fn new(what: impl Into<String>) -> Self {
        Self { what: what.into(), ..Self::default() }
    }

    /// Names the file.
    #[must_use]
    pub fn in_file(mut self, file: impl Into<String>) -> Self {
        self.file = Some(file.into());
        self
    }

    /// Names the line, counted from 1.
    #[must_use]
    pub fn at_line(mut self, line: usize) -> Self {
        self.line = Some(line);
        self
    }

    /// Names the key or column.
    #[must_use]
    pub fn at_key(mut self, key: impl Into<String>) -> Self {
        self.key = Some(key.into());
        self
    }

    /// Marks the bytes at fault.
    #[must_use]
    pub fn at_span(mut self, span: Range<usize>) -> Self {
        self.span = Some(span);
        self
    }

    /// Shows the line itself, with `span` of it at fault.
    #[must_use]
    pub fn showing(mut self, line: impl Into<String>, span: Range<usize>) -> Self {
        self.excerpt = Some(line.into());
        self.span = Some(span);
        self
    }

    /// Tells what would be allowed.
    #[must_use]
    pub fn allowed(mut self, allowed: impl Into<String>) -> Self {
        self.allowed = Some(allowed.into());
        self
    }

    /// Tells the way out.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(file) = &self.file {
            write!(f, "{file}: ")?;
        }
        if let Some(line) = self.line {
            write!(f, "line {line}: ")?;
        }
        if let Some(key) = &self.key {
            write!(f, "{key}: ")?;
        }
        write!(f, "{}", self.what)?;
        if self.more > 0 {
            write!(f, " (and {} more like it)", self.more)?;
        }
        if let Some(allowed) = &self.allowed {
            write!(f, "; allowed: {allowed}")?;
        }
        match &self.help {
            Some(help) => write!(f, ". {help}"),
            None => Ok(()),
        }
    }
}

/// Names to choose from, each in quotation marks, as they may hold blanks and commas.
///
/// ```
/// use winterledger::problem::choices;
/// assert_eq!(choices(["main", "studio, wing"]), "'main', 'studio, wing'");
/// ```
pub fn choices<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    names.into_iter().map(|name| format!("'{name}'")).collect::<Vec<_>>().join(", ")
}

/// Everything wrong with one input, told together.
pub type Problems = Vec<Problem>;
