//! The embedded typeface: Inter in two weights, under the SIL Open Font License.
//!
//! Holds bytes and a name, nothing else. Where the files come from and how they were cut down is
//! in `data/fonts/README.md`. Start at [`REGULAR`].

/// The family name both files carry.
pub const FAMILY: &str = "Inter";

/// Inter Regular (weight 400), a TrueType file of Latin letters and the signs reports use.
pub const REGULAR: &[u8] = include_bytes!("../../../data/fonts/Inter-Regular.ttf");

/// Inter SemiBold (weight 600), the same signs.
pub const SEMI_BOLD: &[u8] = include_bytes!("../../../data/fonts/Inter-SemiBold.ttf");
