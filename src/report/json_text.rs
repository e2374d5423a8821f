//! A document into JSON text, the one way for all of them: a number that came out as minus zero is
//! written as zero, which is what it means.
//!
//! Must never know what is in a document. Start at [`indented`].

use std::io::{self, Write};

use serde::Serialize;
use serde_json::ser::{CompactFormatter, Formatter, PrettyFormatter, Serializer};

/// The document, indented, with a line end.
///
/// # Errors
/// A value that JSON cannot hold.
pub(super) fn indented(document: &impl Serialize) -> serde_json::Result<String> {
    written(document, PrettyFormatter::new()).map(|text| text + "\n")
}

/// The document in one line, without an end.
///
/// # Errors
/// A value that JSON cannot hold.
pub(super) fn compact(document: &impl Serialize) -> serde_json::Result<String> {
    written(document, CompactFormatter)
}

fn written(document: &impl Serialize, formatter: impl Formatter) -> serde_json::Result<String> {
    let mut bytes = Vec::new();
    document.serialize(&mut Serializer::with_formatter(&mut bytes, NoMinusZero(formatter)))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// What another formatter writes, but for minus zero.
struct NoMinusZero<F>(F);

impl<F: Formatter> Formatter for NoMinusZero<F> {
    fn write_f64<W: ?Sized + Write>(&mut self, writer: &mut W, value: f64) -> io::Result<()> {
        // Minus zero plus zero is zero; every other number stays as it is.
        self.0.write_f64(writer, value + 0.0)
    }

    fn begin_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.begin_array(writer)
    }

    fn end_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.end_array(writer)
    }

    fn begin_array_value<W: ?Sized + Write>(&mut self, writer: &mut W, first: bool) -> io::Result<()> {
        self.0.begin_array_value(writer, first)
    }

    fn end_array_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.end_array_value(writer)
    }

    fn begin_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.begin_object(writer)
    }

    fn end_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.end_object(writer)
    }

    fn begin_object_key<W: ?Sized + Write>(&mut self, writer: &mut W, first: bool) -> io::Result<()> {
        self.0.begin_object_key(writer, first)
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.begin_object_value(writer)
    }

    fn end_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.0.end_object_value(writer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minus_zero_is_zero_and_the_rest_is_as_the_library_writes_it() {
        let document = (vec![0.0, -1.5, -1e-300, f64::NAN], "-0.0", [(1, Some(2.5), None::<f64>)]);
        assert_eq!(compact(&document).unwrap(), serde_json::to_string(&document).unwrap());
        assert_eq!(indented(&document).unwrap(), serde_json::to_string_pretty(&document).unwrap() + "\n");
        assert_eq!(serde_json::to_string(&[-0.0]).unwrap(), "[-0.0]");
        assert_eq!(compact(&[-0.0, 0.0, -0.0]).unwrap(), "[0.0,0.0,0.0]");
        assert_eq!(indented(&[-0.0]).unwrap(), "[\n  0.0\n]\n");
    }
}
