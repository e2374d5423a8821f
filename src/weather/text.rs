//! The bytes of a weather file into lines, one after the other, within limits.
//!
//! Holds about a megabyte ahead at first, so that a layout can be looked for, then a piece at a time,
//! however large the file; what is too large is refused while it comes. Must never know any layout.
//! Start at [`Text`].

use super::limits::{LIMITS, Limits, binary, too_large, too_long};
use super::stream::Stream;
use crate::problem::Problem;
use encoding_rs::WINDOWS_1252;
use memchr::{memchr, memchr_iter, memrchr};
use std::borrow::Cow;
use std::io::Read;

/// Of a text kept whole, lines beyond these are read and forgotten: nothing that is one year has more.
const MOST_LINES: usize = 50_000;

/// A text that is read line by line.
pub(super) struct Text<'r> {
    stream: Stream<'r>,
    limits: Limits,
    /// What was read, given away up to `at`.
    buffer: Vec<u8>,
    at: usize,
    ended: bool,
    /// Bytes of the line that the buffer's end cuts.
    cut: usize,
    size: usize,
    line: usize,
    windows_1252: bool,
    decoded: String,
    /// Whether any line ended in a line feed.
    line_feeds: bool,
    /// Whether lines end in carriage returns alone, which are then read as line feeds.
    returns_only: bool,
}

/// A text kept whole.
#[derive(Debug)]
pub(super) struct Whole {
    /// Its lines.
    pub(super) text: String,
    /// Where it comes from.
    pub(super) origin: Origin,
}

/// What is to be said of a text that was read to its end.
#[derive(Debug)]
pub(super) struct Origin {
    /// SHA-256 of the bytes as given (before gunzip), in hexadecimal.
    pub(super) sha256: String,
    /// Whether lines were no UTF-8 and were taken as Windows-1252, in which every byte means something.
    pub(super) windows_1252: bool,
}

impl<'r> Text<'r> {
    /// Reads the first megabyte.
    ///
    /// # Errors
    /// Broken gzip, NUL bytes, a line over 64 kB, nothing at all.
    pub(super) fn open(bytes: impl Read + 'r) -> Result<Self, Problem> {
        Self::within(LIMITS, bytes)
    }

    fn within(limits: Limits, bytes: impl Read + 'r) -> Result<Self, Problem> {
        let mut text = Self {
            stream: Stream::open(bytes)?,
            limits,
            buffer: Vec::new(),
            at: 0,
            ended: false,
            cut: 0,
            size: 0,
            line: 0,
            windows_1252: false,
            decoded: String::new(),
            line_feeds: false,
            returns_only: false,
        };
        while !text.ended && text.buffer.len() < limits.ahead {
            text.read_on()?;
        }
        if text.ended && text.buffer.trim_ascii().is_empty() {
            let problem = Problem::new("the file is empty");
            return Err(problem.help("Give a file with a year of hours or with bins"));
        }
        Ok(text)
    }

    /// The next line with its number, counted from 1; nothing at the end.
    ///
    /// # Errors
    /// As [`Self::open`], and more than 256 MB.
    pub(super) fn next_line(&mut self) -> Result<Option<(usize, &str)>, Problem> {
        let length = loop {
            let unread = self.buffer.get(self.at..).unwrap_or_default();
            match memchr(b'\n', unread) {
                Some(length) => break length + 1,
                None if !self.ended => self.read_on()?,
                None if unread.is_empty() => return Ok(None),
                None => break unread.len(),
            }
        };
        let (line, text) = self.given(length);
        let text = text.strip_suffix('\n').unwrap_or(text);
        Ok(Some((line, text.strip_suffix('\r').unwrap_or(text))))
    }

    /// The next line that holds anything.
    ///
    /// # Errors
    /// As [`Self::next_line`].
    pub(super) fn next_filled(&mut self) -> Result<Option<(usize, String)>, Problem> {
        while let Some((line, text)) = self.next_line()? {
            if !text.trim().is_empty() {
                return Ok(Some((line, text.to_owned())));
            }
        }
        Ok(None)
    }

    /// As many lines as are at hand, at least one, with the number of the first; nothing at the end.
    ///
    /// # Errors
    /// As [`Self::next_line`].
    pub(super) fn next_lines(&mut self) -> Result<Option<(usize, &str)>, Problem> {
        let length = loop {
            let unread = self.buffer.get(self.at..).unwrap_or_default();
            match memrchr(b'\n', unread) {
                Some(length) => break length + 1,
                None if !self.ended => self.read_on()?,
                None if unread.is_empty() => return Ok(None),
                None => break unread.len(),
            }
        };
        Ok(Some(self.given(length)))
    }

    /// So many bytes of whole lines, and the number of the first line.
    fn given(&mut self, length: usize) -> (usize, &str) {
        let Self { buffer, decoded, windows_1252, .. } = self;
        let bytes = buffer.get(self.at..self.at + length).unwrap_or_default();
        let first = self.line + 1;
        self.at += length;
        self.line += memchr_iter(b'\n', bytes).count();
        let text = std::str::from_utf8(bytes).unwrap_or_else(|_| {
            *windows_1252 = true;
            *decoded = bytes.split_inclusive(|b| *b == b'\n').map(utf_8_or_windows_1252).collect();
            decoded
        });
        (first, text)
    }

    /// The lines that were read and not yet given, a cut one left out.
    pub(super) fn ahead(&self) -> Cow<'_, str> {
        let unread = self.buffer.get(self.at..).unwrap_or_default();
        let end = if self.ended { unread.len() } else { memrchr(b'\n', unread).unwrap_or_default() };
        let lines = unread.get(..end).unwrap_or_default();
        match std::str::from_utf8(lines) {
            Ok(text) => Cow::Borrowed(text),
            Err(_) => Cow::Owned(lines.split_inclusive(|b| *b == b'\n').map(utf_8_or_windows_1252).collect()),
        }
    }

    /// Makes the first lines that hold anything and are not `kept` blank, so that readers count them alone.
    pub(super) fn blank(&mut self, filled: usize, kept: impl Fn(&str) -> bool) {
        let unread = self.buffer.get_mut(self.at..).unwrap_or_default();
        let lines = unread.split_mut(|byte| *byte == b'\n');
        let lines = lines.filter(|line| !line.trim_ascii().is_empty() && !kept(&utf_8_or_windows_1252(line)));
        lines.take(filled).for_each(|line| line.fill(b' '));
    }

    /// All that is left, kept.
    ///
    /// # Errors
    /// As [`Self::next_line`].
    pub(super) fn whole(mut self) -> Result<Whole, Problem> {
        let mut text = String::new();
        while let Some((first, lines)) = self.next_lines()? {
            if first <= MOST_LINES {
                text.push_str(lines);
            }
        }
        Ok(Whole { text, origin: self.finish()? })
    }

    /// Reads to the end, of which nothing is kept.
    ///
    /// # Errors
    /// As [`Self::next_line`].
    pub(super) fn finish(mut self) -> Result<Origin, Problem> {
        while self.next_lines()?.is_some() {}
        Ok(Origin { sha256: self.stream.sha256(), windows_1252: self.windows_1252 })
    }

    /// Reads a piece more; what was given away goes.
    fn read_on(&mut self) -> Result<(), Problem> {
        self.buffer.drain(..self.at);
        self.at = 0;
        let mut kept = self.buffer.len();
        // No line inside a piece is longer than the piece.
        self.buffer.resize(kept + self.limits.line, 0);
        let read = self.stream.read(self.buffer.get_mut(kept..).unwrap_or_default());
        self.buffer.truncate(kept + read.as_ref().copied().unwrap_or_default());
        let piece = self.buffer.get(kept..).unwrap_or_default();
        self.ended = read? == 0;
        self.size += piece.len();
        if let Some(at) = memchr(0, piece) {
            // Only while nothing of it has been given away does the buffer begin with the file.
            let first = if self.size == self.buffer.len() { self.buffer.as_slice() } else { &[] };
            return Err(binary(self.line_at(kept + at), first));
        }
        if self.size > self.limits.size {
            return Err(too_large(self.limits));
        }
        self.line_feeds |= memchr(b'\n', piece).is_some();
        if self.returns_only || self.shows_returns_only() {
            // All that has no line feed yet, at first; then each piece.
            kept = if self.returns_only { kept } else { 0 };
            self.cut = if self.returns_only { self.cut } else { 0 };
            self.returns_only = true;
            let new = self.buffer.get_mut(kept..).unwrap_or_default();
            new.iter_mut().filter(|byte| **byte == b'\r').for_each(|byte| *byte = b'\n');
        }
        let piece = self.buffer.get(kept..).unwrap_or_default();
        let cut = self.cut + memchr(b'\n', piece).unwrap_or(piece.len());
        if cut > self.limits.line {
            return Err(too_long(self.limits, self.line_at(kept)));
        }
        self.cut = memrchr(b'\n', piece).map_or(cut, |at| piece.len() - at - 1);
        Ok(())
    }

    /// Whether the text so far has carriage returns and no line feed, as old computers and some spreadsheets
    /// end lines; known at the end, or where no line may be longer.
    fn shows_returns_only(&self) -> bool {
        let enough = self.ended || self.buffer.len() > self.limits.line;
        enough && !self.line_feeds && memchr(b'\r', &self.buffer).is_some()
    }

    /// The line of a place in the buffer.
    fn line_at(&self, place: usize) -> usize {
        let before = self.buffer.get(self.at..place).unwrap_or_default();
        self.line + memchr_iter(b'\n', before).count() + 1
    }
}

fn utf_8_or_windows_1252(line: &[u8]) -> Cow<'_, str> {
    match std::str::from_utf8(line) {
        Ok(text) => Cow::Borrowed(text),
        Err(_) => WINDOWS_1252.decode_without_bom_handling(line).0,
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::weather::stream::tests::gzip;
    use std::cell::Cell;

    const SMALL: Limits = Limits { line: 100, size: 1000, ahead: 500 };

    fn whole(limits: Limits, bytes: impl Read) -> Result<Whole, Problem> {
        Text::within(limits, bytes)?.whole()
    }

    #[test]
    fn lines_are_utf_8_or_windows_1252_and_end_as_they_like() {
        let whole = |bytes: &[u8]| whole(LIMITS, bytes).unwrap();
        assert_eq!(whole(b"a\r\nb\n\nc").text, "a\r\nb\n\nc");
        assert_eq!(whole(b"a\rb\r\rc").text, "a\nb\n\nc");
        // Longer than the longest line, so that the returns are seen while it is read.
        let long = "hour\r".repeat(40_000);
        assert_eq!(whole(long.as_bytes()).text, long.replace('\r', "\n"));
        let text = whole("Gr\u{fc}nau".as_bytes());
        assert_eq!((text.text.as_str(), text.origin.windows_1252), ("Gr\u{fc}nau", false));
        let text = whole(b"a\nGr\xfcnau\n");
        assert_eq!((text.text.as_str(), text.origin.windows_1252), ("a\nGr\u{fc}nau\n", true));
    }

    #[test]
    fn blank_lines_are_counted_and_passed_over() {
        let mut text = Text::open(&b"\n \r\na\n\n\nb"[..]).unwrap();
        assert_eq!(text.ahead(), "\n \r\na\n\n\nb");
        assert_eq!(text.next_filled().unwrap(), Some((3, "a".to_owned())));
        assert_eq!(text.ahead(), "\n\nb");
        assert_eq!(text.next_line().unwrap(), Some((4, "")));
        assert_eq!(text.next_filled().unwrap(), Some((6, "b".to_owned())));
        assert_eq!(text.next_filled().unwrap(), None);
        let text = Text::open(&b"Temp\xe9rature\nGr\xc3\xbcnau\n"[..]).unwrap();
        assert_eq!(text.ahead(), "Temp\u{e9}rature\nGr\u{fc}nau\n");
    }

    #[test]
    fn what_is_too_large_is_refused_while_it_is_read() {
        let refused = |bytes: &mut dyn Read| whole(SMALL, bytes).unwrap_err();
        let line = refused(&mut &[b"ab\n".as_slice(), &[b'x'; 101]].concat()[..]);
        assert_eq!((line.what.as_str(), line.line), ("the line is too long", Some(2)));
        let line = refused(&mut &[b"ab\n\n".as_slice(), &[b'x'; 101], b"\n"].concat()[..]);
        assert_eq!((line.what.as_str(), line.line), ("the line is too long", Some(3)));
        // Sources without end: only a reader that stops by itself comes back from them.
        assert_eq!(refused(&mut std::io::repeat(b'\n')).what, "the file is too large");
        assert_eq!(refused(&mut std::io::repeat(b'7')).what, "the line is too long");
        assert_eq!(refused(&mut &gzip(&[b'\n'; 5000])[..]).what, "the file is too large");
    }

    #[test]
    fn empty_and_binary_files_are_told_apart() {
        let problem = |bytes: &[u8]| whole(LIMITS, bytes).unwrap_err();
        assert_eq!(problem(b"").what, "the file is empty");
        assert_eq!(problem(b" \r\n").what, "the file is empty");
        let binary = problem(b"PK\n\nx\x04\0\0");
        assert!(binary.what.starts_with("the file is not text") && binary.line == Some(3));
    }

    /// Rows without number, and a count of the bytes that were taken of them.
    struct Rows<'a> {
        taken: &'a Cell<usize>,
    }

    impl Read for Rows<'_> {
        fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
            for (i, byte) in buffer.iter_mut().enumerate() {
                *byte = if (self.taken.get() + i) % 50 == 49 { b'\n' } else { b'7' };
            }
            self.taken.set(self.taken.get() + buffer.len());
            Ok(buffer.len())
        }
    }

    /// By construction: however much is read, no more than the first megabyte and a piece is held.
    #[test]
    fn memory_stays_flat_while_lines_are_read() {
        let taken = Cell::new(0);
        let mut text = Text::open(Rows { taken: &taken }).unwrap();
        let room = text.buffer.capacity();
        let mut given = 0;
        while given < 50 * LIMITS.ahead {
            let lines = text.next_lines().unwrap().unwrap().1.len();
            assert!(lines.is_multiple_of(50) && lines > 0);
            given += lines;
            assert!(taken.get() - given <= LIMITS.ahead + LIMITS.line, "{} ahead", taken.get());
        }
        assert!(taken.get() > 48 * LIMITS.ahead);
        assert!(text.buffer.capacity() <= room && room <= 2 * (LIMITS.ahead + LIMITS.line));
    }
}
