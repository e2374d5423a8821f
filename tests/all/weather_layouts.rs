//! Good files of each layout into the right hours; gaps, codes, units and time.

use crate::weather_text::{EPW_HEAD, TMY3_HEAD, epw_row, file, gzip, plain, tenths, tmy3_row};
use winterledger::weather::{OutdoorYear, Remark, Weather, YearKind, read};

fn year(text: &str) -> OutdoorYear {
    match read("made-up.csv", text.as_bytes()) {
        Ok(Weather::Year(year)) => *year,
        Ok(_) => panic!("no year"),
        Err(problems) => panic!("{}", problems.iter().map(|p| p.to_string() + "\n").collect::<String>()),
    }
}

fn keep(_: usize, row: String) -> Option<String> {
    Some(row)
}

fn assert_every_hour_is_its_own(year: &OutdoorYear) {
    assert_eq!(year.columns.dry_bulb_c.len(), 8760);
    for (h, found) in year.columns.dry_bulb_c.iter().enumerate() {
        assert_eq!(*found, tenths(h) as f64 / 10.0, "hour {h}");
    }
}

/// What the made-up TMY3 and EPW files both hold.
fn assert_old_mill(year: &OutdoorYear) {
    assert_every_hour_is_its_own(year);
    assert_eq!((year.kind, year.calendar_year()), (YearKind::Typical, 2023));
    assert_eq!((year.latitude, year.longitude), (Some(42.1), Some(-76.95)));
    assert_eq!((year.elevation_m, year.utc_offset_h, year.zone), (Some(273.0), Some(-5.0), None));
    assert_eq!(year.filled_hours, 0);
    let at = |column: &Option<winterledger::series::Hourly<f64>>| column.as_ref().unwrap()[4000];
    // Hour 4000 ends at 17:00 (4000 = 166 days and 16 hours): the row's sun is 160.
    assert_eq!(
        (at(&year.columns.global_w_m2), at(&year.columns.direct_w_m2), at(&year.columns.diffuse_w_m2)),
        (160.0, 160.0, 0.0)
    );
    assert_eq!((at(&year.columns.dew_point_c), at(&year.columns.relative_humidity)), (-21.0, 0.8));
    assert_eq!((at(&year.columns.pressure_pa), at(&year.columns.wind_m_s)), (99_000.0, 3.1));
}

#[test]
fn a_tmy3_file_puts_the_hour_that_ends_at_one_into_hour_zero() {
    let year = year(&file(TMY3_HEAD, tmy3_row, keep));
    assert_old_mill(&year);
    assert_eq!(year.place, "OLD MILL, NORTH, NY");
}

#[test]
fn an_epw_file_puts_the_hour_that_ends_at_one_into_hour_zero() {
    let year = year(&file(EPW_HEAD, epw_row, keep));
    assert_old_mill(&year);
    assert_eq!(year.place, "Old Mill, NY");
}

#[test]
fn a_gzipped_file_with_crlf_and_mark_reads_like_the_plain_one() {
    let text = file(TMY3_HEAD, tmy3_row, keep);
    let windows = format!("\u{feff}{}", text.replace('\n', "\r\n"));
    let (Ok(Weather::Year(plain)), Ok(Weather::Year(packed))) =
        (read("a", text.as_bytes()), read("a", &gzip(&windows)[..]))
    else {
        panic!("not read")
    };
    assert_eq!(plain.columns.dry_bulb_c, packed.columns.dry_bulb_c);
    assert_ne!(plain.sha256, packed.sha256);
}

#[test]
fn a_plain_file_says_its_place_and_time() {
    let head = "# place: Grünau, Main\n# latitude: 48\n# longitude: 13.9\n# elevation_m: 530\n\
        # utc_offset_h: 1\n# time_zone: Europe/Vienna\n# year: 2015\n# made up for a test\n";
    let year = year(&plain(head, keep));
    assert_every_hour_is_its_own(&year);
    assert_eq!(year.place, "Grünau, Main");
    assert_eq!((year.kind, year.zone), (YearKind::Actual(2015), Some(chrono_tz::Europe::Vienna)));
    assert_eq!((year.latitude, year.longitude), (Some(48.0), Some(13.9)));
    assert_eq!((year.elevation_m, year.utc_offset_h), (Some(530.0), Some(1.0)));
    assert_eq!(year.columns.dew_point_c, None);
}

#[test]
fn a_plain_file_that_says_nothing_is_a_typical_year_of_its_own_name() {
    let year = year(&plain("", keep));
    assert_eq!((year.kind, year.place.as_str()), (YearKind::Typical, "made-up.csv"));
    assert_eq!((year.latitude, year.utc_offset_h, year.zone), (None, None, None));
}

#[test]
fn a_time_zone_alone_gives_the_offset_of_standard_time() {
    let year = year(&plain("# time_zone: America/Denver\n", keep));
    assert_eq!(year.utc_offset_h, Some(-7.0));
}

#[test]
fn fahrenheit_kelvin_semicolons_and_an_hour_column_are_read() {
    let fahrenheit = "hour;dry_bulb_degF;relative_humidity_percent\n".to_owned()
        + &(0..8760).map(|h| format!("{h};{},0;55,5\n", 32 + h % 40)).collect::<String>();
    let read_f = year(&fahrenheit);
    // Hand-worked: hour 18 has 50 °F, which is 10 °C.
    assert_eq!((read_f.columns.dry_bulb_c[0], read_f.columns.dry_bulb_c[18]), (0.0, 10.0));
    assert!((read_f.columns.relative_humidity.unwrap()[7] - 0.555).abs() < 1e-12);
    let kelvin = "dry_bulb_K\n".to_owned() + &"283.15\n".repeat(8760);
    assert!((year(&kelvin).columns.dry_bulb_c[8759] - 10.0).abs() < 1e-12);
}

#[test]
fn a_leap_year_has_8784_hours_and_keeps_its_29_february() {
    let text = "# year: 2016\ndry_bulb_degC\n".to_owned() + &"1.5\n".repeat(8784);
    let leap = year(&text);
    assert_eq!((leap.kind, leap.columns.dry_bulb_c.len()), (YearKind::Actual(2016), 8784));
    // 31 + 29 + 31 + 30 + 31 + 30 days before 1 July.
    assert_eq!(leap.run(None).calendar.start_in_year(), 182 * 24);
}

#[test]
fn short_gaps_are_filled_by_a_line_and_counted() {
    let drop = |missing: &'static str, from: usize, to: usize| {
        plain("", move |h, row| Some(if (from..=to).contains(&h) { missing.to_owned() } else { row }))
    };
    for code in ["9999", "99.9", "-9999", "-9900", " ", ""] {
        let year = year(&drop(code, 100, 105));
        assert_eq!(year.filled_hours, 6, "{code}");
        // Without the gap the hours rise by 0.1 K each, so the line gives them back.
        for h in 99..=106 {
            assert!((year.columns.dry_bulb_c[h] - tenths(h) as f64 / 10.0).abs() < 1e-9, "{code}, hour {h}");
        }
    }
    let problems = read("a.csv", drop("9999", 100, 106).as_bytes()).unwrap_err();
    let message = problems[0].to_string();
    assert_eq!(problems.len(), 1);
    // Hour 100 is 5 January 04:00 and stands on line 102, below the header.
    assert!(message.contains("line 102: "), "{message}");
    assert!(message.contains("for 7 hours, from the hour that begins 5 January 04:00"), "{message}");
    assert!(message.contains("to the one that begins 5 January 10:00"), "{message}");
}

#[test]
fn another_column_with_one_hour_missing_is_left_out_whole() {
    let gap = |h, row: String| Some(if h == 5000 { row.replace(",80,", ",999,") } else { row });
    let year = year(&file(EPW_HEAD, epw_row, gap));
    assert_eq!(year.columns.relative_humidity, None);
    assert!(year.columns.dew_point_c.is_some());
    assert_every_hour_is_its_own(&year);
}

#[test]
fn bins_are_read_warm_to_cold_in_celsius() {
    let text = "# place: Old Mill\nhours,outdoor_degF\n40,32\n10.5,50\n2,-4\n";
    let Ok(Weather::Bins(table)) = read("b.csv", text.as_bytes()) else { panic!("no bins") };
    let bins: Vec<(f64, f64)> = table.bins.iter().map(|b| (b.temperature_c, b.hours)).collect();
    assert_eq!(bins, [(10.0, 10.5), (0.0, 40.0), (-20.0, 2.0)]);
    assert_eq!(table.place, "Old Mill");
    assert_eq!(table.sha256.len(), 64);
}

/// Rows of which so many make an hour, around its own temperature.
fn parts_of_hours(an_hour: usize, hours: usize, row: impl Fn(usize, &str) -> String) -> String {
    let part = |i: usize| {
        let (hour, part) = (i / an_hour, i % an_hour);
        // Even steps about the hour: −0.5, +0.5; −1.5, −0.5, +0.5, +1.5.
        let step = part as f64 - (an_hour as f64 - 1.0) / 2.0;
        row(hour, &format!("{:.1}", tenths(hour % 8760) as f64 / 10.0 + step)) + "\n"
    };
    (0..hours * an_hour).map(part).collect()
}

#[test]
fn half_and_quarter_hours_without_dates_become_the_mean_of_their_hour() {
    let near = |year: &OutdoorYear, hours: usize| {
        assert_eq!((year.columns.dry_bulb_c.len(), year.filled_hours), (hours, 0));
        let own = |h: usize| tenths(h % 8760) as f64 / 10.0;
        assert!((0..hours).all(|h| (year.columns.dry_bulb_c[h] - own(h)).abs() < 1e-9));
    };
    for an_hour in [2, 4] {
        let reading = |year: OutdoorYear| year.reading.unwrap();
        let head = EPW_HEAD.replace("DATA PERIODS,1,1,", &format!("DATA PERIODS,1,{an_hour},"));
        let epw = year(&(head + &parts_of_hours(an_hour, 8760, epw_row)));
        near(&epw, 8760);
        assert!(reading(epw).remarks.contains(&Remark::Averaged { rows_an_hour: an_hour }));
        let plain = |head: &str, hours| {
            year(&(head.to_owned() + &parts_of_hours(an_hour, hours, |hour, t| format!("{hour},{t}"))))
        };
        let typical = plain("hour,dry_bulb_degC\n", 8760);
        near(&typical, 8760);
        assert_eq!((typical.kind, reading(typical).rows), (YearKind::Typical, 8760 * an_hour));
        let leap = plain("# year: 2016\nhour,dry_bulb_degC\n", 8784);
        near(&leap, 8784);
        assert_eq!(leap.kind, YearKind::Actual(2016));
    }
}

#[test]
fn half_an_hour_without_a_value_leaves_the_other_half() {
    let rows = parts_of_hours(2, 8760, |_, t| t.to_owned());
    // Hour 0 is −20.0 of −20.5 and −19.5; hour 1 has no value at all, by hand (−19.5 − 19.8)/2.
    let text =
        format!("dry_bulb_degC\n{}", rows.replacen("-20.5\n", "\n", 1).replacen("-20.4\n-19.4\n", "\n\n", 1));
    let year = year(&text);
    assert_eq!((year.columns.dry_bulb_c[0], year.filled_hours), (-19.5, 1));
    assert!((year.columns.dry_bulb_c[1] + 19.65).abs() < 1e-9);
}

/// An hour's place in an undated file is standard time; the job's zone says which, and when clocks move.
#[test]
fn a_zone_that_the_job_names_moves_the_clock_of_a_file_that_says_none() {
    let year = |head: &str| match read("made-up.csv", plain(head, |_, row| Some(row)).as_bytes()) {
        Ok(Weather::Year(year)) => year,
        other => panic!("{other:?}"),
    };
    let chicago = Some(chrono_tz::America::Chicago);
    let (unsaid, said) = (year(""), year("# utc_offset_h: -6\n"));
    assert_eq!((unsaid.offset_in(None), unsaid.offset_in(chicago)), (None, Some(-6.0)));
    assert_eq!(unsaid.run(chicago), said.run(chicago));
    let shifted = |stamps: &[winterledger::calendar::Stamp]| {
        (0..stamps.len()).filter(|hour| usize::from(stamps[*hour].hour) != hour % 24).count()
    };
    // Daylight saving of 2023 as of a typical year: from the second Sunday of March to the first of November.
    assert!(shifted(unsaid.run(chicago).calendar.stamps()) > 5000);
    assert_eq!(shifted(unsaid.run(None).calendar.stamps()), 0);
}

/// A spreadsheet in French saves Windows-1252, in which é is one byte; an export puts lines above the names.
#[test]
fn names_of_another_code_page_and_below_other_lines_are_read() {
    let above = "Relev\u{e9} horaire\nStation invent\u{e9}e;48,45 N\n\nDonn\u{e9}es\n";
    for (above, lines) in [("", None), (above, Some(3)), ("# rien\nRelev\u{e9}\n", Some(1))] {
        let text = crate::weather_other_peoples::file(
            &format!("{above}date;temp\u{e9}rature (\u{b0}C)"),
            2023,
            |_, time, c| Some(format!("{time};{}", format!("{c:.1}").replace('.', ","))),
        );
        let bytes: Vec<u8> = text.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
        let Ok(Weather::Year(year)) = read("a.csv", &bytes[..]) else { panic!("{above}") };
        let chicago = crate::weather_other_peoples::chicago();
        assert!(year.columns.dry_bulb_c.iter().zip(&chicago).all(|(found, c)| (found - c).abs() < 0.051));
        let remarks = year.reading.unwrap().remarks;
        let told = remarks.iter().find_map(|remark| match remark {
            Remark::LinesAbove { lines, .. } => Some(*lines),
            _ => None,
        });
        assert_eq!(told, lines);
    }
}

#[test]
fn short_names_of_units_and_a_typeset_minus_are_read() {
    let celsius = year(&("dry_bulb_C\n".to_owned() + &"\u{2212}4.4\n".repeat(8760)));
    assert_eq!(celsius.columns.dry_bulb_c[8759], -4.4);
    // Hand-worked: 14 °F is (14 − 32)/1.8 = −10 °C.
    let fahrenheit =
        year(&("hour,Dry_Bulb_F\n".to_owned() + &(0..8760).map(|h| format!("{h},14\n")).collect::<String>()));
    assert!((fahrenheit.columns.dry_bulb_c[0] + 10.0).abs() < 1e-12);
}

#[test]
fn bins_of_other_names_are_read_and_those_without_hours_left_out() {
    let read = |text: &str| match read("a.csv", text.as_bytes()) {
        Ok(Weather::Bins(bins)) => bins.bins.iter().map(|bin| bin.hours).collect::<Vec<_>>(),
        other => panic!("{other:?}"),
    };
    assert_eq!(read("temperature_F,hours\n52,10\n47,0\n42,30\n"), [10.0, 30.0]);
    assert_eq!(read("hours;Air temperature (deg C)\n10;2,5\n30;-2,5\n"), [10.0, 30.0]);
}
