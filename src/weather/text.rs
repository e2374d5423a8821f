//! The bytes of a weather file into text: gzip, byte-order mark, encoding, and the limits of size.
//!
//! Counts while it reads, so that a file far too large is refused before it fills the memory. Must
//! never know any layout. Start at [`read_text`].

use crate::problem::Problem;
use flate2::read::MultiGzDecoder;
use sha2::{Digest, Sha256};
use std::io::{Cursor, Read};

const GZIP_MAGIC: [u8; 2] = [0x1f, 0x8b];
const HEX: &[u8; 16] = b"0123456789abcdef";

/// The text of a file and the hash of its bytes.
#[derive(Debug)]
pub(super) struct Text {
    /// The whole text, decompressed and decoded.
    pub(super) text: String,
    /// SHA-256 of the bytes as given (before gunzip), in hexadecimal.
    pub(super) sha256: String,
    /// Whether the bytes were no UTF-8 and were taken as Windows-1252.
    pub(super) windows_1252: bool,
}

/// The greatest line and the greatest text that are taken, bytes.
#[derive(Debug, Clone, Copy)]
struct Limits {
    line: usize,
    size: usize,
}

const LIMITS: Limits = Limits { line: 64 * 1024, size: 256 * 1024 * 1024 };

/// Reads bytes, gzipped (also of several members) or plain, into text.
///
/// UTF-8, or what a byte-order mark says; anything else is taken as Windows-1252, in which every
/// byte means something.
///
/// # Errors
/// Broken gzip, NUL bytes, a line over 64 kB, more than 256 MB, nothing at all.
pub(super) fn read_text(file: &str, bytes: impl Read) -> Result<Text, Problem> {
    read_within(LIMITS, bytes).map_err(|problem| problem.in_file(file))
}

fn read_within(limits: Limits, bytes: impl Read) -> Result<Text, Problem> {
    let mut source = Hashed { inner: bytes, hash: Sha256::new() };
    let mut head = Vec::new();
    source.by_ref().take(2).read_to_end(&mut head).map_err(|e| unreadable(&e))?;
    let gzip = head == GZIP_MAGIC;
    let whole = Cursor::new(head).chain(&mut source);
    let gathered = if gzip { gather(MultiGzDecoder::new(whole), limits) } else { gather(whole, limits) };
    let bytes = gathered.map_err(|refusal| match refusal {
        Refusal::Problem(problem) => problem,
        Refusal::Io(e) if gzip => broken_gzip(&e),
        Refusal::Io(e) => unreadable(&e),
    })?;
    let (text, windows_1252) = decode(bytes);
    if text.trim().is_empty() {
        return Err(Problem::new("the file is empty").help("Give a file with a year of hours or with bins"));
    }
    Ok(Text { text, sha256: hexadecimal(&source.hash.finalize()), windows_1252 })
}

/// One hash of several files: that of their hashes, in the order given; of one file its own.
pub(super) fn hash_of_all(hashes: &[&str]) -> String {
    match hashes {
        [one] => (*one).to_owned(),
        many => hexadecimal(&Sha256::digest(many.concat().as_bytes())),
    }
}

enum Refusal {
    Problem(Problem),
    Io(std::io::Error),
}

fn unreadable(error: &std::io::Error) -> Problem {
    Problem::new(format!("the file can't be read: {error}"))
}

fn broken_gzip(error: &std::io::Error) -> Problem {
    Problem::new(format!("the gzip file is broken or cut short: {error}"))
        .help("Fetch or pack it again, or give it unpacked")
}

fn hexadecimal(hash: &[u8]) -> String {
    let digit = |n: u8| HEX.get(usize::from(n)).map_or('0', |b| char::from(*b));
    hash.iter().flat_map(|b| [digit(b >> 4), digit(b & 15)]).collect()
}

/// Passes bytes on and hashes them on the way.
struct Hashed<R> {
    inner: R,
    hash: Sha256,
}

impl<R: Read> Read for Hashed<R> {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        let n = self.inner.read(buffer)?;
        self.hash.update(buffer.get(..n).unwrap_or_default());
        Ok(n)
    }
}

fn gather(mut source: impl Read, limits: Limits) -> Result<Vec<u8>, Refusal> {
    let mut bytes = Vec::new();
    let mut lines = LineCount { line: 1, length: 0 };
    let mut buffer = vec![0; 64 * 1024];
    loop {
        let n = match source.read(&mut buffer) {
            Ok(0) => return Ok(bytes),
            Ok(n) => n,
            Err(e) if e.kind() == std::io::ErrorKind::Interrupted => continue,
            Err(e) => return Err(Refusal::Io(e)),
        };
        let chunk = buffer.get(..n).unwrap_or_default();
        bytes.extend_from_slice(chunk);
        check_size(bytes.len(), limits).map_err(Refusal::Problem)?;
        lines.count(chunk, limits).map_err(Refusal::Problem)?;
        // UTF-16 text is full of NUL bytes; its byte-order mark says so.
        if chunk.contains(&0) && !is_utf_16(&bytes) {
            return Err(Refusal::Problem(binary(lines.line)));
        }
    }
}

fn check_size(size: usize, limits: Limits) -> Result<(), Problem> {
    if size <= limits.size {
        return Ok(());
    }
    Err(Problem::new("the file is too large")
        .allowed(format!("up to {} MB when unpacked", limits.size / (1024 * 1024)))
        .help("Give one year of hourly weather; that is a few MB"))
}

fn is_utf_16(bytes: &[u8]) -> bool {
    bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff])
}

fn binary(line: usize) -> Problem {
    Problem::new("the file is not text: it has NUL bytes")
        .at_line(line)
        .allowed("text, or gzipped text")
        .help("Unpack archives, and save spreadsheets as CSV")
}

struct LineCount {
    line: usize,
    length: usize,
}

impl LineCount {
    fn count(&mut self, chunk: &[u8], limits: Limits) -> Result<(), Problem> {
        for (i, part) in chunk.split(|b| *b == b'\n').enumerate() {
            if i > 0 {
                self.line += 1;
                self.length = 0;
            }
            self.length += part.len();
            if self.length > limits.line {
                return Err(Problem::new("the line is too long")
                    .at_line(self.line)
                    .allowed(format!("lines up to {} kB", limits.line / 1024))
                    .help("Give a text file with one hour or one bin on each line"));
            }
        }
        Ok(())
    }
}

/// The text, and whether it was taken as Windows-1252.
fn decode(bytes: Vec<u8>) -> (String, bool) {
    if let Some((encoding, mark)) = encoding_rs::Encoding::for_bom(&bytes) {
        let rest = bytes.get(mark..).unwrap_or_default();
        return (encoding.decode_without_bom_handling(rest).0.into_owned(), false);
    }
    match String::from_utf8(bytes) {
        Ok(text) => (text, false),
        Err(e) => {
            let text = encoding_rs::WINDOWS_1252.decode_without_bom_handling(e.as_bytes()).0;
            (text.into_owned(), true)
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use flate2::{Compression, write::GzEncoder};
    use std::io::Write;

    const SMALL: Limits = Limits { line: 100, size: 1000 };

    fn gzip(text: &[u8]) -> Vec<u8> {
        let mut encoder = GzEncoder::new(Vec::new(), Compression::fast());
        encoder.write_all(text).unwrap();
        encoder.finish().unwrap()
    }

    #[test]
    fn gzip_of_several_members_is_read_to_its_end() {
        let bytes = [gzip(b"one\n"), gzip(b"two\n")].concat();
        assert_eq!(read_text("a.gz", &bytes[..]).unwrap().text, "one\ntwo\n");
    }

    #[test]
    fn the_hash_is_of_the_bytes_as_given() {
        // Published: FIPS 180-2, appendix B.1, the message "abc".
        let text = read_text("a", &b"abc"[..]).unwrap();
        assert_eq!(text.sha256, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_ne!(read_text("a", &gzip(b"abc")[..]).unwrap().sha256, text.sha256);
    }

    #[test]
    fn encodings_are_told_by_mark_then_utf_8_then_windows_1252() {
        let text = |bytes: &[u8]| read_text("a", bytes).unwrap().text;
        assert_eq!(text(b"\xef\xbb\xbfplace"), "place");
        assert_eq!(text(b"\xff\xfea\0b\0"), "ab");
        assert_eq!(text("Grünau".as_bytes()), "Grünau");
        assert_eq!(text(b"Gr\xfcnau"), "Grünau");
    }

    #[test]
    fn what_is_too_large_is_refused_while_it_is_read() {
        let line = read_within(SMALL, &[b"ab\n".as_slice(), &[b'x'; 101]].concat()[..]).unwrap_err();
        assert_eq!((line.what.as_str(), line.line), ("the line is too long", Some(2)));
        // A source without end: only a reader that stops by itself comes back from it.
        let size = read_within(SMALL, std::io::repeat(b'\n')).unwrap_err();
        assert_eq!(size.what, "the file is too large");
        let packed = read_within(SMALL, &gzip(&[b'\n'; 5000])[..]).unwrap_err();
        assert_eq!(packed.what, "the file is too large");
    }

    #[test]
    fn empty_binary_and_broken_files_are_told_apart() {
        let what = |bytes: &[u8]| read_text("a", bytes).unwrap_err().what;
        assert_eq!(what(b""), "the file is empty");
        assert_eq!(what(b" \r\n"), "the file is empty");
        assert!(what(b"PK\x03\x04\0\0").starts_with("the file is not text"));
        let whole = gzip(b"some text that is long enough\n");
        assert!(what(&whole[..whole.len() - 9]).starts_with("the gzip file is broken"));
    }
}
