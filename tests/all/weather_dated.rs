//! Layouts whose rows carry their date into the right hours: clock, halves, records, gaps, notes.
//!
//! The texts are made up in the published layouts; each hour's value follows from the hour.

use crate::weather_text::{gzip, label, tenths};
use chrono::NaiveDate;
use winterledger::weather::{
    FileClock, GapRule, Layout, OutdoorYear, ReadOptions, Remark, Weather, WeatherRecord, YearKind, read,
    read_many, read_with,
};

const CHICAGO: ReadOptions =
    ReadOptions { layout: None, gaps: GapRule::Line, clock: None, zone: Some(chrono_tz::America::Chicago) };

fn told(problems: Vec<winterledger::problem::Problem>) -> String {
    problems.iter().map(|p| p.to_string() + "\n").collect()
}

fn year_of(text: &[u8], options: &ReadOptions) -> OutdoorYear {
    match read_with("made-up", text, options) {
        Ok(Weather::Year(year)) => *year,
        Ok(_) => panic!("no year"),
        Err(problems) => panic!("{}", told(problems)),
    }
}

fn record_of(files: &[(&str, String)], options: &ReadOptions) -> WeatherRecord {
    let files = files.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes())).collect();
    match read_many(files, options) {
        Ok(Weather::Record(record)) => *record,
        Ok(_) => panic!("no record"),
        Err(problems) => panic!("{}", told(problems)),
    }
}

fn message(text: &str, options: &ReadOptions) -> String {
    told(read_with("bad", text.as_bytes(), options).unwrap_err())
}

fn leap(year: i32) -> bool {
    year % 4 == 0
}

fn hours_of(year: i32) -> usize {
    if leap(year) { 8784 } else { 8760 }
}

/// Month, day and hour 0 to 23 of hour `h` of an actual year.
fn stamp(year: i32, h: usize) -> (usize, usize, usize) {
    let february_29 = 59 * 24;
    if leap(year) && (february_29..february_29 + 24).contains(&h) {
        return (2, 29, h - february_29);
    }
    let (month, day, end) = label(if leap(year) && h >= february_29 { h - 24 } else { h });
    (month, day, end - 1)
}

fn degrees(h: usize) -> f64 {
    tenths(h) as f64 / 10.0
}

/// A year of ISD-Lite rows; `value` gives tenths of °C or the missing code.
fn isd(year: i32, value: impl Fn(usize) -> Option<i64>) -> String {
    let row = |h: usize| {
        let (month, day, hour) = stamp(year, h);
        let t = value(h)?;
        Some(format!(
            "{year} {month:02} {day:02} {hour:02} {t:>5}  -250 10132   270    26     2     0 -9999\n"
        ))
    };
    (0..hours_of(year)).filter_map(row).collect()
}

fn csv(head: &str, year: i32, row: impl Fn(String, usize) -> String) -> String {
    let rows = (0..hours_of(year)).map(|h| {
        let (month, day, hour) = stamp(year, h);
        row(format!("{year}-{month:02}-{day:02} {hour:02}"), h) + "\n"
    });
    head.to_owned() + &rows.collect::<String>()
}

#[test]
fn a_year_in_utc_is_shifted_and_what_it_lacks_is_taken_from_its_other_end() {
    let year = year_of(isd(2015, |h| Some(tenths(h))).as_bytes(), &CHICAGO);
    assert_eq!((year.kind, year.columns.dry_bulb_c.len()), (YearKind::Actual(2015), 8760));
    // 06:00 UTC is midnight in Chicago; its last six hours are the file's first.
    for h in 0..8760 {
        assert_eq!(year.columns.dry_bulb_c[h], degrees((h + 6) % 8760), "hour {h}");
    }
    assert_eq!(year.utc_offset_h, Some(-6.0));
    let reading = year.reading.unwrap();
    assert_eq!((reading.layout, reading.rows, reading.hours_taken), (Layout::IsdLite, 8760, 8760));
    assert_eq!(reading.remarks, [Remark::Shifted { hours: -6.0, wrapped: 6 }]);
    assert_eq!(reading.columns_taken, ["air temperature", "dew point temperature", "wind speed"]);
    assert!(reading.columns_passed_over.contains(&"sea level pressure".to_owned()));
    assert!(year.columns.pressure_pa.is_none());
    assert_eq!(year.columns.wind_m_s.unwrap()[0], 2.6);
}

#[test]
fn east_of_greenwich_the_clock_is_put_forward() {
    let options = ReadOptions { zone: Some(chrono_tz::Asia::Kolkata), ..CHICAGO };
    let year = year_of(isd(2015, |h| Some(tenths(h))).as_bytes(), &options);
    assert_eq!(year.kind, YearKind::Actual(2015));
    // 00:00 UTC is 05:30 there and stands for hour 5; hour 0 is the file's hour 8755.
    assert_eq!((year.columns.dry_bulb_c[5], year.columns.dry_bulb_c[0]), (degrees(0), degrees(8755)));
}

#[test]
fn hours_in_utc_without_a_known_zone_are_refused_with_the_way_out() {
    let message = message(&isd(2015, |h| Some(tenths(h))), &ReadOptions::default());
    assert!(message.contains("the standard time of the place is not known"), "{message}");
    assert!(message.contains("time_zone = \"America/Chicago\""), "{message}");
}

#[test]
fn several_years_in_any_order_make_one_record_that_loses_no_hour_inside() {
    let files = [
        ("2017.txt", isd(2017, |h| Some(tenths(h) + 2))),
        ("2015.txt", isd(2015, |h| Some(tenths(h)))),
        ("2016.txt", isd(2016, |h| Some(tenths(h) + 1))),
    ];
    let record = record_of(&files, &CHICAGO);
    assert_eq!(record.columns.dry_bulb_c.len(), 8760 + 8784 + 8760);
    assert_eq!((record.winters(), record.calendar_years()), (vec![2015, 2016], vec![2015, 2016, 2017]));
    let leap_year = record.calendar_year(2016).unwrap();
    assert_eq!((leap_year.columns.dry_bulb_c.len(), leap_year.kind), (8784, YearKind::Actual(2016)));
    // The last six hours of 2016 in Chicago are the first of 2017 in UTC.
    assert_eq!(leap_year.columns.dry_bulb_c[8783], (tenths(5) + 2) as f64 / 10.0);
    assert_eq!(leap_year.columns.dry_bulb_c[0], (tenths(6) + 1) as f64 / 10.0);
    let winter = record.from_july(2015).unwrap();
    assert_eq!((winter.columns.dry_bulb_c.len(), winter.kind), (8784, YearKind::FromJuly(2015)));
    let run = winter.run(Some(chrono_tz::America::Chicago));
    // 1 July 2015 00:00 standard time is 01:00 on the wall, a Wednesday.
    let first = run.calendar.stamps()[0];
    assert_eq!((first.month, first.day, first.hour, first.weekday), (7, 1, 1, 2));
    assert_eq!(run.calendar.stamps()[8783].month, 7, "30 June 23:00 is 1 July 00:00 on the wall");
    assert_eq!(run.dry_bulb_c[0], degrees(4344 + 6));
    assert!(record.from_july(2017).is_none());
    assert!(matches!(record.reading.remarks[..], [Remark::Shifted { hours: -6.0, wrapped: 6 }]));
}

#[test]
fn files_that_do_not_go_together_are_told() {
    let year = |number| isd(number, |h| Some(tenths(h)));
    let both = |a: String, b: String| {
        let files = vec![("a".to_owned(), a.as_bytes()), ("b".to_owned(), b.as_bytes())];
        told(read_many(files, &CHICAGO).unwrap_err())
    };
    let twice = both(year(2015), year(2015));
    assert!(
        twice.contains("b: its hours from 1 January 2015 00:00 to 31 December 2015 23:00 are in a already"),
        "{twice}"
    );
    assert!(both(year(2015), year(2017)).contains("no dry-bulb temperature for 8784 hours"));
    let plain = "dry_bulb_degC\n".to_owned() + &"1\n".repeat(8760);
    assert!(both(year(2015), plain).contains("b: its rows carry no dates"));
    assert!(
        told(read_many(Vec::<(String, &[u8])>::new(), &CHICAGO).unwrap_err()).contains("no weather file")
    );
}

#[test]
fn a_long_gap_is_refused_unless_the_rule_fills_it_from_the_neighbouring_days() {
    // Days 100 and 101 lack hours 3 to 12 UTC; each day's value is its number.
    let gap = |h: usize| (100..102).contains(&(h / 24)) && (3..13).contains(&(h % 24));
    let text = isd(2015, |h| Some(if gap(h) { -9999 } else { (h / 24) as i64 }));
    let refused = message(&text, &CHICAGO);
    assert!(refused.contains("for 10 hours, from the hour that begins 10 April 21:00"), "{refused}");
    assert!(refused.contains("weather_gaps = \"neighbouring_days\""), "{refused}");
    let year = year_of(text.as_bytes(), &ReadOptions { gaps: GapRule::NeighbouringDays, ..CHICAGO });
    assert_eq!(year.filled_hours, 20);
    let reading = year.reading.unwrap();
    assert_eq!((reading.hours_taken, reading.filled_hours), (8740, 20));
    assert!(reading.remarks.contains(&Remark::FilledByDays { hours: 20 }));
    // Hand-worked: the nearest days that have the hour are 99 and 102; their mean is 100.5 tenths.
    assert!((year.columns.dry_bulb_c[100 * 24 + 3 - 6] - 10.05).abs() < 1e-12);
}

#[test]
fn rows_that_are_missing_are_missing_hours() {
    let text = isd(2015, |h| (!(500..503).contains(&h)).then(|| tenths(h)));
    let year = year_of(text.as_bytes(), &CHICAGO);
    assert_eq!((year.filled_hours, year.reading.as_ref().unwrap().rows), (3, 8757));
    // Without the gap the hours rise by 0.1 K each, so the line gives them back.
    assert!((year.columns.dry_bulb_c[501 - 6] - degrees(501)).abs() < 1e-9);
    // The dew point lacks them too and is left out.
    assert!(year.columns.dew_point_c.is_none());
    let dropped = |r: &Remark| matches!(r, Remark::ColumnDropped { column, missing: 3, .. } if column.starts_with("dew"));
    assert!(year.reading.unwrap().remarks.iter().any(dropped));
}

/// Names and values of the place as the source writes them; hours in zone `own`.
fn nsrdb(own: i32, year: i32, minutes: &[usize]) -> String {
    let head = format!(
        "Source,Location ID,City,State,Country,Latitude,Longitude,Time Zone,Elevation,Local Time Zone,\
         Dew Point Units,GHI Units,Temperature Units,Pressure Units,Wind Speed Units,Version\n\
         NSRDB,1,-,-,-,40.14,-105.23,{own},1645,-7,c,w/m2,c,mbar,m/s,4.0.0\n\
         Year,Month,Day,Hour,Minute,GHI,Temperature,Pressure,Wind Speed,Cloud Type\n"
    );
    let rows = (0..hours_of(year)).flat_map(|h| {
        let (month, day, hour) = stamp(year, h);
        minutes.iter().map(move |m| {
            let t = degrees(h) + if *m == 30 { 0.4 } else { 0.0 };
            format!("{year},{month},{day},{hour},{m},{},{t:.1},835,2.5,0\n", h % 24)
        })
    });
    head + &rows.collect::<String>()
}

#[test]
fn an_nsrdb_file_follows_its_own_two_time_zones() {
    let local = year_of(nsrdb(-7, 2015, &[30]).as_bytes(), &ReadOptions::default());
    let utc = year_of(nsrdb(0, 2015, &[30]).as_bytes(), &ReadOptions::default());
    assert_eq!(
        (local.latitude, local.longitude, local.elevation_m),
        (Some(40.14), Some(-105.23), Some(1645.0))
    );
    assert_eq!((local.utc_offset_h, utc.utc_offset_h), (Some(-7.0), Some(-7.0)));
    for h in [0, 1, 5000, 8759] {
        // 12:30 stands for the hour from 12:00 to 13:00.
        assert!((local.columns.dry_bulb_c[h] - degrees(h) - 0.4).abs() < 1e-9);
        assert!((utc.columns.dry_bulb_c[h] - degrees((h + 7) % 8760) - 0.4).abs() < 1e-9);
    }
    assert_eq!(local.columns.pressure_pa.unwrap()[9], 83_500.0);
    assert_eq!(local.reading.unwrap().columns_passed_over, ["Cloud Type"]);
}

#[test]
fn half_hours_become_the_mean_of_the_two() {
    let year = year_of(nsrdb(-7, 2016, &[0, 30]).as_bytes(), &ReadOptions::default());
    assert_eq!((year.kind, year.columns.dry_bulb_c.len()), (YearKind::Actual(2016), 8784));
    // Hand-worked: the mean of t and t + 0.4.
    assert!((0..8784).all(|h| (year.columns.dry_bulb_c[h] - degrees(h) - 0.2).abs() < 1e-9));
    let reading = year.reading.unwrap();
    assert_eq!(reading.rows, 2 * 8784);
    assert_eq!(reading.remarks, [Remark::Averaged { rows_an_hour: 2 }]);
}

#[test]
fn a_typical_year_names_another_year_in_each_month() {
    let text = nsrdb(0, 2015, &[0]);
    let (head, rows) = text.split_at(text.find("2015,").unwrap());
    let years =
        ["2003", "2011", "1999", "2012", "2000", "2005", "2001", "2008", "2004", "2010", "2007", "2002"];
    let renamed = rows.lines().map(|row| {
        let month: usize = row.split(',').nth(1).unwrap().parse().unwrap();
        row.replacen("2015", years[month - 1], 1) + "\n"
    });
    let year = year_of((head.to_owned() + &renamed.collect::<String>()).as_bytes(), &ReadOptions::default());
    assert_eq!((year.kind, year.calendar_year()), (YearKind::Typical, 2023));
    assert_eq!((year.columns.dry_bulb_c[0], year.columns.dry_bulb_c[8759]), (degrees(7), degrees(6)));
}

#[test]
fn an_nsrdb_file_in_other_units_is_refused() {
    let text = nsrdb(0, 2015, &[0]).replacen(",c,mbar", ",f,mbar", 1);
    let message = message(&text, &ReadOptions::default());
    assert!(message.contains("line 2: Temperature Units: found 'f'; allowed: c"), "{message}");
    let without = nsrdb(0, 2015, &[0]).replacen(",Temperature,", ",Warmth,", 1);
    assert!(
        told(read("x", without.as_bytes()).unwrap_err())
            .contains("line 3: the column 'Temperature' is missing")
    );
}

const PVGIS_FOOT: &str = "\r\nT2m: 2-m air temperature (degree Celsius)\r\n\
    WS10m: 10-m total wind speed (m/s)\r\n\r\nPVGIS (c) European Union, 2001-2024\r\n";

fn pvgis_hourly(first: i32, last: i32) -> String {
    let head = "Latitude (decimal degrees):\t53.835\r\nLongitude (decimal degrees):\t-7.072\r\n\
        Elevation (m):\t101\r\nRadiation database:\tPVGIS-SARAH3\r\n\r\nSlope: 0 deg. \r\n\
        Azimuth: 0 deg. \r\ntime,G(i),H_sun,T2m,WS10m,Int\r\n";
    let rows = (first..=last).flat_map(|year| {
        (0..hours_of(year)).map(move |h| {
            let (month, day, hour) = stamp(year, h);
            format!("{year}{month:02}{day:02}:{hour:02}11,0.0,0.0,{:.2},1.45,0.0\r\n", degrees(h))
        })
    });
    head.to_owned() + &rows.collect::<String>() + PVGIS_FOOT
}

#[test]
fn a_pvgis_series_is_read_between_its_head_and_its_foot() {
    let options = ReadOptions { zone: Some(chrono_tz::Europe::Dublin), ..ReadOptions::default() };
    let record = record_of(&[("pvgis.csv", pvgis_hourly(2011, 2012))], &options);
    assert_eq!(
        (record.latitude, record.longitude, record.elevation_m),
        (Some(53.835), Some(-7.072), Some(101.0))
    );
    assert_eq!((record.winters(), record.columns.dry_bulb_c.len()), (vec![2011], 8760 + 8784));
    assert_eq!(record.columns.dry_bulb_c[8760], degrees(0));
    assert_eq!(record.reading.columns_passed_over, ["G(i)", "H_sun", "Int"]);
    assert!(record.reading.remarks.is_empty(), "{:?}", record.reading.remarks);
    let wrong = pvgis_hourly(2011, 2012).replacen("20110105:0311", "2011x105:0311", 1);
    let message = message(&wrong, &options);
    assert!(message.contains("line 108: found '2011x105:0311', which is no date and time"), "{message}");
}

#[test]
fn a_pvgis_typical_year_is_typical_even_if_its_months_are_of_one_year() {
    let head = "Latitude (decimal degrees): -26.200\nLongitude (decimal degrees): 28.050\n\
        Elevation (m): 1746.0\nIrradiance Time Offset (h): 0.0518\nmonth,year\n1,2005\n2,2005\n\
        time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\n";
    let rows = (0..8760).map(|h| {
        let (month, day, hour) = stamp(2005, h);
        format!(
            "2005{month:02}{day:02}:{hour:02}00,{},71.57,1.0,-0.0,1.0,248.97,2.57,61.0,82144.0\n",
            degrees(h)
        )
    });
    let text = head.to_owned() + &rows.collect::<String>();
    let year = year_of(text.as_bytes(), &ReadOptions::default());
    assert_eq!(year.kind, YearKind::Typical);
    // Nobody says the zone: 28.05° east is two hours by longitude, and that is told.
    assert_eq!((year.columns.dry_bulb_c[2], year.columns.dry_bulb_c[0]), (degrees(0), degrees(8758)));
    let remarks = &year.reading.as_ref().unwrap().remarks;
    assert!(remarks.contains(&Remark::OffsetFromLongitude { hours: 2.0 }), "{remarks:?}");
    assert_eq!((year.columns.pressure_pa.unwrap()[0], year.columns.direct_w_m2.unwrap()[0]), (82_144.0, 0.0));
}

#[test]
fn dates_in_one_column_in_two_or_in_four_mean_the_same() {
    let one = csv("datetime,dry_bulb_degC\n", 2015, |date, h| format!("{date}:00,{}", degrees(h)));
    let two = csv("date;time;Temperature (°C)\n", 2015, |date, h| {
        format!("{};{}:00;{}", &date[..10], &date[11..], degrees(h).to_string().replace('.', ","))
    });
    let american = csv("Date,Time,Temp_F\n", 2015, |date, h| {
        let hour: usize = date[11..].parse().unwrap();
        let half = if hour < 12 { "AM" } else { "PM" };
        let clock = if hour.is_multiple_of(12) { 12 } else { hour % 12 };
        let day = format!("{}/{}/{}", &date[5..7], &date[8..10], &date[..4]);
        format!("{day},{clock}:00 {half},{}", degrees(h) * 1.8 + 32.0)
    });
    let german = csv("Datum Zeit", 2015, |_, _| String::new());
    assert!(read("x", german.as_bytes()).is_err());
    let points = csv("timestamp,t2m_K\n", 2015, |date, h| {
        format!("{}.{}.{} {}:00,{}", &date[8..10], &date[5..7], &date[..4], &date[11..], degrees(h) + 273.15)
    });
    let parts = csv("Year,Month,Day,Hour,air_temperature_degC\n", 2015, |date, h| {
        format!("{},{},{},{},{}", &date[..4], &date[5..7], &date[8..10], &date[11..], degrees(h))
    });
    let ends = csv("datetime,dry_bulb_degC\n", 2015, |date, h| {
        let hour: usize = date[11..].parse().unwrap();
        format!("{} {}:00,{}", &date[..10], hour + 1, degrees(h))
    });
    for text in [one, two, american, points, parts, ends] {
        let year = year_of(text.as_bytes(), &ReadOptions::default());
        assert_eq!(year.kind, YearKind::Actual(2015));
        assert!((0..8760).all(|h| (year.columns.dry_bulb_c[h] - degrees(h)).abs() < 1e-9), "{}", &text[..60]);
        assert!(year.reading.unwrap().remarks.contains(&Remark::ClockUnsaid));
    }
}

#[test]
fn a_csv_says_utc_in_its_name_in_each_row_or_the_job_says_it() {
    let texts = [
        (csv("datetime_utc,temp_C\n", 2015, |date, h| format!("{date}:00,{}", degrees(h))), None),
        (
            csv("datetime,temp_C\n", 2015, |date, h| {
                format!("{}:00Z,{}", date.replace(' ', "T"), degrees(h))
            }),
            None,
        ),
        (csv("datetime,temp_C\n", 2015, |date, h| format!("{date}:00,{}", degrees(h))), Some(FileClock::Utc)),
    ];
    for (text, clock) in texts {
        let year = year_of(text.as_bytes(), &ReadOptions { clock, ..CHICAGO });
        assert_eq!((year.columns.dry_bulb_c[0], year.utc_offset_h), (degrees(6), Some(-6.0)));
    }
    let said =
        csv("# utc_offset_h: -6\ndatetime,temp_C\n", 2015, |date, h| format!("{date}:00,{}", degrees(h)));
    let year = year_of(said.as_bytes(), &ReadOptions::default());
    assert_eq!((year.columns.dry_bulb_c[0], year.utc_offset_h), (degrees(0), Some(-6.0)));
    assert!(year.reading.unwrap().remarks.is_empty());
}

#[test]
fn a_column_without_a_unit_is_taken_only_where_it_can_be_kelvin() {
    let kelvin =
        csv("datetime,temp_2m,u_10\n", 2015, |date, h| format!("{date}:30:00,{},-5.5", degrees(h) + 273.15));
    let year = year_of(kelvin.as_bytes(), &ReadOptions::default());
    assert!((year.columns.dry_bulb_c[77] - degrees(77)).abs() < 1e-9);
    let reading = year.reading.unwrap();
    assert!(reading.remarks.contains(&Remark::TakenAsKelvin { column: "temp_2m".into() }));
    assert_eq!(reading.columns_passed_over, ["u_10"]);
    let unsaid = csv("datetime,temp_2m\n", 2015, |date, h| format!("{date}:00,{}", degrees(h)));
    let message = message(&unsaid, &ReadOptions::default());
    assert!(message.contains("line 1: the column 'temp_2m' does not say its unit"), "{message}");
}

#[test]
fn hours_of_no_whole_year_are_told() {
    let row = |date: String, h: usize| format!("{date}:00,{}", degrees(h));
    let text = csv("datetime,temp_C\n", 2015, row);
    let message = |text: &str| message(text, &CHICAGO);
    let june = &text[..text.find("2015-06-20").unwrap()];
    let found = message(june);
    assert!(
        found.contains("from 1 January 2015 00:00 to 19 June 2015 23:00, which is no whole year"),
        "{found}"
    );
}

#[test]
fn other_twelve_months_are_taken_where_their_winter_is_whole() {
    let row = |date: String, h: usize| format!("{date}:00,{}", degrees(h));
    let (a, b) = (csv("datetime,temp_C\n", 2014, row), csv("", 2015, row));
    let cut = |from: &str, to: &str| {
        let whole = a.clone() + &b;
        let body = &whole[whole.find(from).unwrap()..whole.find(to).unwrap()];
        format!("datetime,temp_C\n{body}")
    };
    // October to September: laid on 2015, whose autumn is then that of 2014.
    let year = year_of(cut("2014-10-01", "2015-10-01").as_bytes(), &CHICAGO);
    assert_eq!(
        (year.kind, year.columns.dry_bulb_c[0], year.columns.dry_bulb_c[8759]),
        (YearKind::Actual(2015), degrees(0), degrees(8759))
    );
    let first = NaiveDate::from_ymd_opt(2014, 10, 1).unwrap();
    assert!(year.reading.unwrap().remarks.contains(&Remark::Turned { first }));
    // An hour of December that was filled is of the year in which it was measured.
    let lacking = cut("2014-10-01", "2015-10-01").replace("2014-12-14 09:00", "2014-12-14 08:30");
    let filled = year_of(lacking.as_bytes(), &CHICAGO).filled_at().unwrap();
    assert_eq!(filled.first.0.to_string(), "2014-12-14 09:00:00");
    // July to June is a record of one winter.
    let record = record_of(&[("x", cut("2014-07-01", "2015-07-01"))], &CHICAGO);
    assert_eq!((record.winters(), record.calendar_years()), (vec![2014], vec![]));
    // A year and some months: the calendar year is taken, the rest told.
    let year = year_of(cut("2014-01-01", "2015-03-01").as_bytes(), &CHICAGO);
    assert_eq!((year.kind, year.columns.dry_bulb_c[0]), (YearKind::Actual(2014), degrees(0)));
    let reading = year.reading.unwrap();
    assert!(reading.remarks.contains(&Remark::LeftOut { hours: 59 * 24 }), "{:?}", reading.remarks);
    assert_eq!(reading.rows_skipped, 59 * 24);
}

#[test]
fn windows_line_ends_marks_and_latin_1_do_no_harm_and_are_told_where_they_matter() {
    let text =
        csv("# place: Grünau\ndatetime;temp (°C)\n", 2015, |date, h| format!("{date}:00;{}", degrees(h)));
    let windows = "\u{feff}".to_owned() + &text.replace('\n', "\r\n").replace('.', ",");
    let marked = year_of(&gzip(&windows), &ReadOptions::default());
    let latin: Vec<u8> = text.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
    let latin = year_of(&latin, &ReadOptions::default());
    assert_eq!(marked.columns.dry_bulb_c, latin.columns.dry_bulb_c);
    assert_eq!((marked.place.as_str(), latin.place.as_str()), ("Grünau", "Grünau"));
    assert_eq!(latin.reading.unwrap().remarks[0], Remark::Windows1252);
    assert!(!marked.reading.unwrap().remarks.contains(&Remark::Windows1252));
}

#[test]
fn a_tmy2_file_is_read_by_its_positions() {
    let mut text = " 12345 OLD MILL               NY  -5 N 42  6 W  76 57   273\n".to_owned();
    for h in 0..8760 {
        let (month, day, hour) = label(h);
        let year = 61 + month;
        let row = format!(
            " {year:02}{month:02}{day:02}{hour:02}00000000{:04}?0{:04}?0{:04}?00000?00000?00000?00000?010A710A7\
             {:04}A7-210A7080A70990A7270A7031A701617777A7099999999999013F8062F8000A788E7",
            h % 24,
            h % 24,
            0,
            tenths(h)
        );
        text += &(row + "\n");
    }
    let year = year_of(text.as_bytes(), &ReadOptions::default());
    assert_eq!((year.place.as_str(), year.kind), ("OLD MILL, NY", YearKind::Typical));
    assert_eq!((year.latitude, year.utc_offset_h, year.elevation_m), (Some(42.1), Some(-5.0), Some(273.0)));
    assert!((year.longitude.unwrap() + 76.95).abs() < 1e-9);
    assert!((0..8760).all(|h| year.columns.dry_bulb_c[h] == degrees(h)));
    assert_eq!(year.columns.dew_point_c.unwrap()[3], -21.0);
    assert_eq!(
        (year.columns.relative_humidity.unwrap()[3], year.columns.pressure_pa.unwrap()[3]),
        (0.8, 99_000.0)
    );
    assert_eq!((year.columns.wind_m_s.unwrap()[3], year.columns.global_w_m2.unwrap()[3]), (3.1, 3.0));
}

#[test]
fn a_forced_layout_is_followed_and_fails_with_its_own_words() {
    let text = csv("datetime,temp_C\n", 2015, |date, h| format!("{date}:00,{}", degrees(h)));
    let forced = ReadOptions { layout: Some(Layout::IsdLite), ..CHICAGO };
    let message = message(&text, &forced);
    assert!(
        message.contains("line 1: the row has 1 column; allowed: 12 columns, all whole numbers"),
        "{message}"
    );
}
