//! Weather files made up in the published layouts, for tests to read and to break.
//!
//! Every value of hour `h` follows from `h`, so that a shifted hour shows.

use flate2::{Compression, write::GzEncoder};
use std::io::Write;

/// The first hour of each month in a year of 365 days, and the year's end.
pub(crate) const MONTHS: [usize; 13] =
    [0, 744, 1416, 2160, 2880, 3624, 4344, 5088, 5832, 6552, 7296, 8016, 8760];

/// Dry-bulb of hour `h`, tenths of °C: −20.0 to 17.6, another in each hour of any two weeks.
pub(crate) fn tenths(h: usize) -> i64 {
    (h % 377) as i64 - 200
}

/// Month, day and end of the hour (1 to 24) of hour `h`.
pub(crate) fn label(h: usize) -> (usize, usize, usize) {
    let month = MONTHS.iter().rposition(|first| *first <= h).unwrap();
    let in_month = h - MONTHS[month];
    (month + 1, in_month / 24 + 1, in_month % 24 + 1)
}

fn decimal(tenths: i64) -> String {
    format!("{:.1}", tenths as f64 / 10.0)
}

/// The station line and the line of names of a TMY3 file; only the columns that carry weight.
pub(crate) const TMY3_HEAD: &str = "123456,\"OLD MILL, NORTH\",NY,-5.0,42.100,-76.950,273\n\
    Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),Dew-point (C),\
    RHum (%),Pressure (mbar),Wspd (m/s)\n";

/// One row of a TMY3 file. The months name different years, as they do in published ones.
pub(crate) fn tmy3_row(h: usize, dry_bulb: &str) -> String {
    let (month, day, hour) = label(h);
    let year = 1980 + month;
    let sun = h % 24 * 10;
    format!("{month:02}/{day:02}/{year},{hour:02}:00,{sun},{sun},0,{dry_bulb},-21.0,80,990,3.1")
}

/// The eight header lines of an EPW file.
pub(crate) const EPW_HEAD: &str = "LOCATION,Old Mill,NY,USA,TMY3,123456,42.1,-76.95,-5.0,273.0\r\n\
    DESIGN CONDITIONS,0\r\nTYPICAL/EXTREME PERIODS,0\r\nGROUND TEMPERATURES,0\r\n\
    HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\r\nCOMMENTS 1,made up\r\nCOMMENTS 2,made up\r\n\
    DATA PERIODS,1,1,Data,Sunday,1/1,12/31\r\n";

/// One row of an EPW file, 35 columns.
pub(crate) fn epw_row(h: usize, dry_bulb: &str) -> String {
    let (month, day, hour) = label(h);
    let (year, sun) = (1980 + month, h % 24 * 10);
    format!(
        "{year},{month},{day},{hour},60,?9?9,{dry_bulb},-21.0,80,99000,0,0,300,{sun},{sun},0,0,0,0,0,180,3.1,\
         5,5,16,77777,9,999999999,999,0.1,0,88,999,999,99"
    )
}

/// A whole file: the head, then each hour's row with its own dry-bulb; `change` may alter or drop a row.
pub(crate) fn file(
    head: &str,
    row: impl Fn(usize, &str) -> String,
    change: impl Fn(usize, String) -> Option<String>,
) -> String {
    let rows = (0..8760).filter_map(|h| change(h, row(h, &decimal(tenths(h)))));
    head.to_owned() + &rows.collect::<Vec<_>>().join("\n") + "\n"
}

/// A plain hourly file of one column.
pub(crate) fn plain(head: &str, change: impl Fn(usize, String) -> Option<String>) -> String {
    file(&format!("{head}dry_bulb_degC\n"), |_, dry_bulb| dry_bulb.to_owned(), change)
}

/// The text, gzipped.
pub(crate) fn gzip(text: &str) -> Vec<u8> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::fast());
    encoder.write_all(text.as_bytes()).unwrap();
    encoder.finish().unwrap()
}
