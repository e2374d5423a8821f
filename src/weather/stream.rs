//! The bytes of a weather file as they are meant: unpacked, UTF-16 turned into UTF-8, hashed as given.
//!
//! Reads on as it is read and keeps nothing. Must never know lines. Start at [`Stream`].

use crate::problem::Problem;
use encoding_rs::{Decoder, Encoding, UTF_8};
use flate2::read::MultiGzDecoder;
use sha2::{Digest, Sha256};
use std::cell::RefCell;
use std::io::{Cursor, ErrorKind, Read};
use std::rc::Rc;

const GZIP_MAGIC: [u8; 2] = [0x1f, 0x8b];
/// Bytes of UTF-16 decoded at once.
const PIECE: usize = 8 * 1024;
const HEX: &[u8; 16] = b"0123456789abcdef";

/// The bytes, as they come.
pub(super) struct Stream<'r> {
    bytes: Box<dyn Read + 'r>,
    hash: Rc<RefCell<Sha256>>,
    gzip: bool,
}

impl<'r> Stream<'r> {
    /// Looks at the first bytes: gzip (also of several members), a byte-order mark, or neither.
    ///
    /// # Errors
    /// The bytes cannot be read, or the gzip is broken.
    pub(super) fn open(bytes: impl Read + 'r) -> Result<Self, Problem> {
        let hash = Rc::new(RefCell::new(Sha256::new()));
        let hashed = Box::new(Hashed { inner: bytes, hash: Rc::clone(&hash) });
        let mut stream = Self { bytes: hashed, hash, gzip: false };
        let first = stream.first(GZIP_MAGIC.len())?;
        stream.gzip = first == GZIP_MAGIC;
        let whole = Cursor::new(first).chain(stream.bytes);
        stream.bytes = if stream.gzip { Box::new(MultiGzDecoder::new(whole)) } else { Box::new(whole) };
        let mut first = stream.first(3)?;
        let mark = Encoding::for_bom(&first);
        first.drain(..mark.map_or(0, |(_, length)| length));
        let whole = Cursor::new(first).chain(stream.bytes);
        stream.bytes = match mark {
            Some((encoding, _)) if encoding != UTF_8 => Box::new(Decoded::new(whole, encoding)),
            _ => Box::new(whole),
        };
        Ok(stream)
    }

    /// Reads some bytes; none at the end.
    ///
    /// # Errors
    /// As [`Self::open`].
    pub(super) fn read(&mut self, into: &mut [u8]) -> Result<usize, Problem> {
        loop {
            match self.bytes.read(into) {
                Err(e) if e.kind() == ErrorKind::Interrupted => {}
                read => return read.map_err(|e| self.refusal(&e)),
            }
        }
    }

    /// SHA-256 of the bytes read so far as they were given (before gunzip), in hexadecimal.
    pub(super) fn sha256(&self) -> String {
        hexadecimal(&self.hash.borrow().clone().finalize())
    }

    fn first(&mut self, most: usize) -> Result<Vec<u8>, Problem> {
        let mut first = Vec::new();
        let read = self.bytes.by_ref().take(most as u64).read_to_end(&mut first);
        read.map_err(|e| self.refusal(&e))?;
        Ok(first)
    }

    fn refusal(&self, error: &std::io::Error) -> Problem {
        match self.gzip {
            true => Problem::new(format!("the gzip file is broken or cut short ({error})"))
                .help("Fetch or pack it again, or give it unpacked"),
            false => Problem::new(format!("the file can't be read: {error}")),
        }
    }
}

/// One hash of several files: that of their hashes, in the order given; of one file its own.
pub(super) fn hash_of_all(hashes: &[&str]) -> String {
    match hashes {
        [one] => (*one).to_owned(),
        many => hexadecimal(&Sha256::digest(many.concat().as_bytes())),
    }
}

fn hexadecimal(hash: &[u8]) -> String {
    let digit = |n: u8| HEX.get(usize::from(n)).map_or('0', |b| char::from(*b));
    hash.iter().flat_map(|b| [digit(b >> 4), digit(b & 15)]).collect()
}

/// Passes bytes on and hashes them on the way.
struct Hashed<R> {
    inner: R,
    hash: Rc<RefCell<Sha256>>,
}

impl<R: Read> Read for Hashed<R> {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        let n = self.inner.read(buffer)?;
        self.hash.borrow_mut().update(buffer.get(..n).unwrap_or_default());
        Ok(n)
    }
}

/// Passes bytes of another encoding on as UTF-8.
struct Decoded<R> {
    inner: R,
    decoder: Decoder,
    piece: String,
    given: usize,
    ended: bool,
}

impl<R: Read> Decoded<R> {
    fn new(inner: R, encoding: &'static Encoding) -> Self {
        let decoder = encoding.new_decoder_without_bom_handling();
        Self { inner, decoder, piece: String::with_capacity(3 * PIECE + 16), given: 0, ended: false }
    }
}

impl<R: Read> Read for Decoded<R> {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        while self.given == self.piece.len() && !self.ended {
            let mut raw = [0; PIECE];
            let n = self.inner.read(&mut raw)?;
            self.ended = n == 0;
            self.piece.clear();
            self.given = 0;
            let _ =
                self.decoder.decode_to_string(raw.get(..n).unwrap_or_default(), &mut self.piece, self.ended);
        }
        let mut rest = self.piece.as_bytes().get(self.given..).unwrap_or_default();
        let n = rest.read(buffer)?;
        self.given += n;
        Ok(n)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
pub(crate) mod tests {
    use super::*;
    use flate2::{Compression, write::GzEncoder};
    use std::io::Write;

    pub(crate) fn gzip(text: &[u8]) -> Vec<u8> {
        let mut encoder = GzEncoder::new(Vec::new(), Compression::fast());
        encoder.write_all(text).unwrap();
        encoder.finish().unwrap()
    }

    /// All bytes and the hash.
    fn all(bytes: &[u8]) -> Result<(Vec<u8>, String), String> {
        let mut stream = Stream::open(bytes).map_err(|problem| problem.what)?;
        let mut found = Vec::new();
        let mut buffer = [0; 7];
        loop {
            match stream.read(&mut buffer).map_err(|problem| problem.what)? {
                0 => return Ok((found, stream.sha256())),
                n => found.extend(&buffer[..n]),
            }
        }
    }

    #[test]
    fn gzip_of_several_members_is_read_to_its_end() {
        let bytes = [gzip(b"one\n"), gzip(b"two\n")].concat();
        assert_eq!(all(&bytes).unwrap().0, b"one\ntwo\n");
        let whole = gzip(b"some text that is long enough\n");
        assert!(all(&whole[..whole.len() - 9]).unwrap_err().starts_with("the gzip file is broken"));
    }

    #[test]
    fn the_hash_is_of_the_bytes_as_given() {
        // Published: FIPS 180-2, appendix B.1, the message "abc".
        let known = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(all(b"abc").unwrap(), (b"abc".to_vec(), known.to_owned()));
        let (text, hash) = all(&gzip(b"abc")).unwrap();
        assert!(text == b"abc" && hash != known);
    }

    #[test]
    fn byte_order_marks_are_followed_and_left_out() {
        assert_eq!(all(b"\xef\xbb\xbfplace").unwrap().0, b"place");
        let long = "Gr\u{fc}nau \u{1f321} ".repeat(3000);
        let little: Vec<u8> = long.encode_utf16().flat_map(u16::to_le_bytes).collect();
        let big: Vec<u8> = long.encode_utf16().flat_map(u16::to_be_bytes).collect();
        assert_eq!(all(&[b"\xff\xfe".to_vec(), little].concat()).unwrap().0, long.as_bytes());
        assert_eq!(all(&gzip(&[b"\xfe\xff".to_vec(), big].concat())).unwrap().0, long.as_bytes());
        assert_eq!(all(b"a").unwrap().0, b"a");
        assert_eq!(all(b"").unwrap().0, b"");
    }
}
