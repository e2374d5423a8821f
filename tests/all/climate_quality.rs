//! The quality pass: nothing is said of the built-in places, each defect put into one is told, and no
//! hour is changed.

use chrono::{Duration, NaiveDate, NaiveDateTime};
use winterledger::problem::Problem;
use winterledger::report::figures::Measure;
use winterledger::report::weather_flags::words;
use winterledger::series::Hourly;
use winterledger::units::UnitSystem;
use winterledger::units::fahrenheit_to_celsius;
use winterledger::weather::labels::Labels;
use winterledger::weather::places::{open, places};
use winterledger::weather::quality::{Bound, Cycle, Degree, Flag, flags, too_much_missing};
use winterledger::weather::{OutdoorColumns, OutdoorYear, Remark, Weather, YearKind, read};

pub(crate) fn years() -> Vec<OutdoorYear> {
    places().iter().map(|place| open(place.key).unwrap()).collect()
}

/// The year with its dry-bulb changed.
pub(crate) fn changed(year: &OutdoorYear, change: impl Fn(&mut [f64])) -> OutdoorYear {
    let mut hours = year.columns.dry_bulb_c.to_vec();
    change(&mut hours);
    let columns = OutdoorColumns { dry_bulb_c: Hourly::new(hours).unwrap(), ..year.columns.clone() };
    OutdoorYear { columns, ..year.clone() }
}

/// The one finding; more or fewer fail.
pub(crate) fn only(year: &OutdoorYear) -> Flag {
    let found = flags(year);
    assert_eq!(found.len(), 1, "{}: {found:?}", year.place);
    found[0].clone()
}

fn at(month: u32, day: u32, hour: u32) -> NaiveDateTime {
    NaiveDate::from_ymd_opt(2023, month, day).unwrap().and_hms_opt(hour, 0, 0).unwrap()
}

pub(crate) fn without_sun(mut year: OutdoorYear) -> OutdoorYear {
    year.columns.global_w_m2 = None;
    year
}

#[test]
fn no_built_in_place_raises_a_flag() {
    for year in years() {
        assert_eq!(flags(&year), [], "{}", year.place);
        // Without irradiance the clock is judged by the temperature.
        let plain = without_sun(year);
        assert_eq!(flags(&plain), [], "{}", plain.place);
        assert_eq!(too_much_missing(&plain).map(|problem| problem.to_string()), None);
    }
}

#[test]
fn a_sensor_that_drops_out_is_told_and_left_as_it_is() {
    for year in years() {
        // Hour 100 begins at 04:00 on 5 January, by hand: 4·24 + 4.
        let broken = changed(&year, |hours| (100..103).for_each(|hour| hours[hour] -= 15.0));
        let before = broken.clone();
        let Flag::DropOut { at: when, hours, jump_k, times } = only(&broken) else { panic!() };
        assert_eq!((when, hours, times), (at(1, 5, 4), 3, 1), "{}", year.place);
        // The jump is 15 K and whatever the weather did meanwhile.
        assert!((-20.0..=-12.0).contains(&jump_k), "{jump_k}");
        assert_eq!(broken, before);
    }
}

#[test]
fn a_stuck_value_is_told_from_a_day_and_an_hour_on() {
    for year in years() {
        let stuck = |n: usize| {
            changed(&year, |hours| {
                let value = hours[4000] + 0.03;
                hours[4000..4000 + n].fill(value);
            })
        };
        for n in [25, 36, 48] {
            let Flag::Stuck { hours, times, .. } = only(&stuck(n)) else { panic!() };
            assert_eq!((hours, times), (n, 1), "{}", year.place);
        }
        assert_eq!(flags(&stuck(24)), [], "{}", year.place);
    }
}

/// A file that stops in June and was filled to the end with its last value or with zeros.
#[test]
fn a_year_filled_up_from_june_is_told() {
    for year in years() {
        for last in [year.columns.dry_bulb_c[4000], 0.0] {
            let filled = changed(&year, |hours| hours[4000..].fill(last));
            let stuck = |flag: &Flag| matches!(flag, Flag::Stuck { hours, .. } if *hours >= 4760);
            assert!(flags(&filled).iter().any(stuck), "{}", year.place);
        }
    }
}

#[test]
fn copied_days_are_told() {
    for year in years() {
        let copied = changed(&year, |hours| hours.copy_within(24 * 31..24 * 41, 24 * 60));
        let found = flags(&copied);
        let first = NaiveDate::from_ymd_opt(2023, 2, 1).unwrap();
        let again = NaiveDate::from_ymd_opt(2023, 3, 2).unwrap();
        assert!(found.contains(&Flag::RepeatedDays { first, again, days: 10 }), "{found:?}");
    }
}

/// The engineering case: 0 °F in a subtropical city. Tucson's own record low is 6 °F (1913, from
/// memory); its year gives the bound, at 32° north and 777 m the latitude would allow it.
#[test]
fn zero_fahrenheit_in_a_subtropical_city_is_told() {
    let tucson = open("az-tucson").unwrap();
    let night = |year: &OutdoorYear| {
        // Falling over five hours, so that no jump tells it.
        changed(year, |hours| {
            for (hour, share) in (195..204).zip([0.2, 0.4, 0.6, 0.8, 1.0, 0.8, 0.6, 0.4, 0.2]) {
                hours[hour] += (fahrenheit_to_celsius(0.0) - hours[hour]) * share;
            }
        })
    };
    let Flag::Impossible { temperature_c, by, hours, at: when, .. } = only(&night(&tucson)) else { panic!() };
    assert!((temperature_c - fahrenheit_to_celsius(0.0)).abs() < 1e-9);
    assert_eq!((by, when), (Bound::OwnYear, at(1, 9, 7)));
    assert!((1..=3).contains(&hours));
    // The same hours at 26° north by the sea (Miami) are beyond what the latitude ever had.
    let by_the_sea = OutdoorYear { latitude: Some(25.8), elevation_m: Some(2.0), ..tucson };
    let Flag::Impossible { by, .. } = only(&night(&by_the_sea)) else { panic!() };
    assert_eq!(by, Bound::Latitude);
    // In the mountains' lee and in the north it is winter.
    for key in ["co-golden", "il-chicago", "nc-greensboro", "nj-mcguire", "ak-northway"] {
        assert_eq!(flags(&night(&open(key).unwrap())), [], "{key}");
    }
}

#[test]
fn degrees_fahrenheit_in_a_celsius_column_are_told() {
    // 75 °F of a summer's day read as 75 °C.
    for year in years() {
        let wrong =
            changed(&year, |hours| (4600..4612).for_each(|hour| hours[hour] = hours[hour] * 1.8 + 32.0));
        let hot = |flag: &Flag| matches!(flag, Flag::Impossible { temperature_c, limit_c, .. } if temperature_c > limit_c);
        let told = flags(&wrong);
        assert!(told.iter().any(hot), "{}: {told:?}", year.place);
    }
}

/// January in °C under the name of °F, and January's hours in July's place, wherever summers are warm.
#[test]
fn months_of_another_unit_or_place_are_told() {
    for year in years() {
        let apart = |flag: &Flag| matches!(flag, Flag::MonthsApart { .. });
        let real = year.columns.dry_bulb_c.to_vec();
        let swapped = changed(&year, |hours| {
            hours[..744].copy_from_slice(&real[4344..5088]);
            hours[4344..5088].copy_from_slice(&real[..744]);
        });
        assert!(flags(&swapped).iter().any(apart), "{}", year.place);
        let july =
            changed(&year, |hours| hours[4344..5088].iter_mut().for_each(|c| *c = fahrenheit_to_celsius(*c)));
        assert!(flags(&july).iter().any(apart), "{}", year.place);
    }
}

#[test]
fn winter_in_summer_is_told_north_and_south() {
    for year in years() {
        let shifted = changed(&year, |hours| hours.rotate_left(4380));
        let told = |year: &OutdoorYear| {
            let mut found = flags(year).into_iter();
            found.find_map(|flag| if let Flag::WrongSeason { south, .. } = flag { Some(south) } else { None })
        };
        assert_eq!(told(&shifted), Some(Some(false)), "{}", year.place);
        let south = |year: &OutdoorYear| OutdoorYear { latitude: year.latitude.map(|l| -l), ..year.clone() };
        assert_eq!((told(&south(&shifted)), told(&south(&year))), (None, Some(Some(true))));
        let nowhere = OutdoorYear { latitude: None, zone: None, ..shifted };
        assert_eq!(told(&nowhere), Some(None));
        let zone = Some(chrono_tz::Pacific::Auckland);
        assert_eq!(told(&OutdoorYear { zone, ..nowhere }), None);
    }
}

#[test]
fn a_code_for_missing_among_degrees_is_asked_about() {
    for (code_c, degree) in [(-99.0, Degree::Celsius), (fahrenheit_to_celsius(-99.0), Degree::Fahrenheit)] {
        for year in years() {
            let broken = changed(&year, |hours| [100, 101, 4000].iter().for_each(|h| hours[*h] = code_c));
            let found = flags(&broken);
            let code = Flag::MissingCode { code: -99.0, degree, at: at(1, 5, 4), hours: 3 };
            assert!(found.contains(&code), "{}: {found:?}", year.place);
        }
    }
}

/// Normals: each hour the mean of that hour over 31 days around; the daily cycle stays.
#[test]
fn climate_normals_used_as_weather_are_told() {
    for year in years() {
        let real = year.columns.dry_bulb_c.to_vec();
        let normal = changed(&year, |hours| {
            for (hour, value) in hours.iter_mut().enumerate() {
                let days = (0..31).map(|day| real[(hour + 8760 + day * 24 - 15 * 24) % 8760]);
                *value = days.sum::<f64>() / 31.0;
            }
        });
        let Flag::Smoothed { day_to_day_k, .. } = only(&normal) else { panic!() };
        assert!(day_to_day_k < 0.5, "{}: {day_to_day_k}", year.place);
        // Daily means in place of hours: no spread within the day.
        let means = changed(&year, |hours| {
            for day in hours.chunks_mut(24) {
                let mean = day.iter().sum::<f64>() / 24.0;
                day.fill(mean);
            }
        });
        assert!(flags(&means).iter().any(|flag| matches!(flag, Flag::Smoothed { .. })), "{}", year.place);
    }
}

/// The hours between the two changes carry the clock's label: each stands one row late.
fn by_the_clock(hours: &[f64], from: usize, to: usize) -> Vec<f64> {
    let mut late = hours.to_vec();
    late[from * 24 + 3..to * 24 + 3].copy_from_slice(&hours[from * 24 + 2..to * 24 + 2]);
    late
}

/// Days of the year 2023 from 0: 12 March and 5 November; 26 March and 29 October.
const CHANGES: [(usize, usize); 2] = [(70, 308), (84, 301)];

#[test]
fn summer_hours_by_the_clock_are_told_by_sun_and_by_temperature() {
    for year in years() {
        for (from, to) in CHANGES {
            let temperature = Hourly::new(by_the_clock(&year.columns.dry_bulb_c, from, to)).unwrap();
            let sun =
                Hourly::new(by_the_clock(year.columns.global_w_m2.as_deref().unwrap(), from, to)).unwrap();
            let columns =
                OutdoorColumns { dry_bulb_c: temperature, global_w_m2: Some(sun), ..year.columns.clone() };
            let late = OutdoorYear { columns, ..year.clone() };
            let Flag::ClockShift { hours, by } = only(&late) else { panic!() };
            assert_eq!(by, Cycle::Sun);
            assert!((0.6..1.5).contains(&hours), "{}: {hours}", year.place);
            let Flag::ClockShift { hours, by } = only(&without_sun(late)) else { panic!() };
            assert_eq!(by, Cycle::Morning);
            assert!((0.75..1.8).contains(&hours), "{}: {hours}", year.place);
        }
    }
}

/// When and how warm.
type Rows = Vec<(NaiveDateTime, f64)>;

/// A year of hours by the clock of a file, 1 January 2023 00:00 first, with its rows changed.
fn read_rows(change: &dyn Fn(&mut Rows)) -> Result<OutdoorYear, Vec<Problem>> {
    let value = |hour: i64| (hour % 377 - 200) as f64 / 10.0;
    let mut rows: Vec<_> = (0..8760).map(|hour| (at(1, 1, 0) + Duration::hours(hour), value(hour))).collect();
    change(&mut rows);
    let text: String =
        rows.iter().map(|(time, t)| format!("{},{t}\n", time.format("%Y-%m-%d %H:%M"))).collect();
    let text = format!("# utc_offset_h: -6\ndatetime,dry_bulb_degC\n{text}");
    match read("rows.csv", text.as_bytes())? {
        Weather::Year(year) => Ok(*year),
        other => panic!("{other:?}"),
    }
}

/// What is said of the labels, and the hours.
fn told(change: &dyn Fn(&mut Rows)) -> (Vec<Labels>, OutdoorYear) {
    let year = read_rows(change).unwrap_or_else(|problems| panic!("{problems:?}"));
    let remarks = year.reading.as_ref().unwrap().remarks.iter();
    let labels = remarks.filter_map(|r| if let Remark::Labels(labels) = r { Some(*labels) } else { None });
    (labels.collect(), year)
}

#[test]
fn rows_that_repeat_or_go_back_are_told_and_laid_where_their_labels_say() {
    let (labels, sound) = told(&|_| ());
    assert_eq!(labels, []);
    let (labels, year) = told(&|rows| rows.insert(51, (rows[50].0, rows[50].1 + 3.0)));
    // The largest difference is told with its hour, in the job's units: by hand, 3.0 K are 5.4 °F.
    let apart = Some((at(1, 3, 2), 3.0));
    assert!(
        matches!(labels[..], [Labels::Duplicated { times: 1, apart: Some((_, k)), .. }] if (k - 3.0).abs() < 1e-9)
    );
    let duplicated = Labels::Duplicated { at: at(1, 3, 2), times: 1, apart };
    assert_eq!(
        winterledger::report::weather_flags::labels(&duplicated, Measure(UnitSystem::Us)),
        "Check the weather file: 1 row with a label that is there before, first 3 January 02:00; the mean was \
         taken, though they are up to 5.4\u{a0}\u{b0}F apart, at 3 January 02:00: take out those that are wrong."
    );
    // By hand: hour 50 is −15.0 °C, its double −12.0; their mean.
    assert_eq!(year.columns.dry_bulb_c[50], -13.5);
    let (labels, year) = told(&|rows| rows.swap(50, 51));
    assert_eq!(labels, [Labels::Unsorted { at: at(1, 3, 2), times: 1 }]);
    assert_eq!(year.columns, sound.columns);
    let (labels, year) = told(&|rows| rows.rotate_left(4000));
    assert_eq!(labels, [Labels::Unsorted { at: at(1, 1, 0), times: 1 }]);
    assert_eq!(year.columns, sound.columns);
    // Two copies of a year behind each other: which would hold?
    let refused = read_rows(&|rows| rows.extend_from_within(..)).unwrap_err();
    assert!(
        refused[0].what.contains("8760 of 17520 rows repeat a date and time that an earlier row has"),
        "{refused:?}"
    );
    // By hand: 5 % of 9,198 rows are 459.9; 438 rows more than a year are within, 480 of 9,240 are not.
    let (labels, _) = told(&|rows| rows.extend_from_within(..438));
    assert!(
        labels.contains(&Labels::Duplicated { at: at(1, 1, 0), times: 438, apart: Some((at(1, 1, 0), 0.0)) }),
        "{labels:?}"
    );
    assert!(read_rows(&|rows| rows.extend_from_within(..480)).is_err());
}

#[test]
fn missing_hours_and_a_file_that_stops_in_june_are_told_where_gaps_and_years_are() {
    let (labels, year) = told(&|rows| drop(rows.drain(50..53)));
    assert_eq!((labels, year.filled_hours), (Vec::new(), 3));
    let refused = read_rows(&|rows| rows.truncate(31 * 24 * 5)).unwrap_err();
    assert!(refused[0].what.contains("to 4 June 2023 23:00, which is no whole year"), "{refused:?}");
}

#[test]
fn a_skipped_and_a_doubled_hour_are_told_as_daylight_saving() {
    let by_the_clock = |rows: &mut Rows| {
        let summer = at(3, 12, 2)..at(11, 5, 1);
        rows.iter_mut()
            .filter(|(time, _)| summer.contains(time))
            .for_each(|(time, _)| *time += Duration::hours(1));
    };
    let (labels, year) = told(&by_the_clock);
    let (skipped, doubled) = (at(3, 12, 2), at(11, 5, 1));
    assert_eq!(labels, [Labels::DaylightSaving { skipped, doubled: Some(doubled), times: 1 }]);
    assert_eq!(year.filled_hours, 1);
    let shown = winterledger::report::reading::remark(&Remark::Labels(labels[0]), Measure(UnitSystem::Us));
    assert_eq!(
        shown,
        "Check the weather file: 12 March 02:00 is missing and 5 November 01:00 is there twice: the \
         labels follow a clock with daylight saving, so that all summer is an hour late; hours must be in \
         standard time all year. Nothing of it was changed. The way out: have the source give the hours in \
         standard time, or in UTC (then site.weather_clock = \"utc\" with site.time_zone, or --clock utc with \
         --time-zone), or each time with its offset, as in 2023-07-01T12:00-05:00."
    );
    // The same with the doubled hour taken out, in an American and in a European year: only the spring's hour is
    // missing. By hand, hour 308·24 + 1 of the year is 5 November 01:00, 301·24 + 2 is 29 October 02:00.
    for (from, to, rows_of) in [(at(3, 12, 2), at(11, 5, 1), 7393), (at(3, 26, 2), at(10, 29, 2), 7226)] {
        let (labels, year) = told(&|rows| {
            rows.iter_mut()
                .filter(|(time, _)| (from..to).contains(time))
                .for_each(|(time, _)| *time += Duration::hours(1));
            rows.remove(rows_of);
        });
        assert_eq!(labels, [Labels::DaylightSaving { skipped: from, doubled: None, times: 1 }]);
        assert_eq!(year.filled_hours, 1);
    }
    // An hour that is missing on another day is no clock's, nor one among many.
    let lacks = |hours: &[usize]| {
        told(&|rows| {
            let mut hour = 0..;
            rows.retain(|_| !hours.contains(&hour.next().unwrap()));
        })
    };
    assert_eq!(lacks(&[70 * 24 + 26]).0, []);
    assert_eq!(lacks(&(0..40).map(|n| 70 * 24 + 2 + n * 100).collect::<Vec<_>>()).0, []);
    // A doubled hour in summer is no clock's.
    let (labels, _) = told(&|rows| {
        let row = rows[4400];
        rows.insert(4400, row);
        rows.remove(4000);
    });
    assert!(matches!(labels[..], [Labels::Duplicated { times: 1, .. }]), "{labels:?}");
}

#[test]
fn more_than_five_percent_missing_is_refused_with_the_count() {
    let year = open("nj-mcguire").unwrap();
    let refused = |filled_hours| too_much_missing(&OutdoorYear { filled_hours, ..year.clone() });
    // By hand: 5 % of 8,760 is 438.
    assert!(refused(438).is_none());
    assert!(refused(439).unwrap().to_string().contains("439 of the 8760 hours"));
}

#[test]
fn a_synthetic_year_is_not_judged() {
    let year = changed(&open("nj-mcguire").unwrap(), |hours| hours.fill(3.0));
    assert!(!flags(&year).is_empty());
    let kind = YearKind::Synthetic { seed: 1 };
    assert_eq!(flags(&OutdoorYear { kind, ..year }), []);
}

/// The texts are read as prose; they are snapshots of the program's own wording.
#[test]
fn every_flag_says_where_what_and_that_nothing_was_changed() {
    let day = |month, day| NaiveDate::from_ymd_opt(2023, month, day).unwrap();
    let all = [
        Flag::DropOut { at: at(1, 5, 4), hours: 3, jump_k: -15.0, times: 2 },
        Flag::Stuck { at: at(6, 1, 0), hours: 60, temperature_c: 20.0, times: 1 },
        Flag::RepeatedDays { first: day(2, 1), again: day(3, 2), days: 10 },
        Flag::Impossible {
            at: at(1, 9, 7),
            temperature_c: -18.0,
            limit_c: -15.0,
            by: Bound::OwnYear,
            hours: 1,
        },
        Flag::Smoothed { day_to_day_k: 0.2, daily_spread_k: 9.0 },
        Flag::NoCycle { cycle_k: 0.2, day_to_day_k: 3.0 },
        Flag::ClockShift { hours: 1.0, by: Cycle::Sun },
    ];
    for flag in &all {
        let text = words(flag, Measure(UnitSystem::Us));
        println!("{text}");
        assert!(
            text.starts_with("Check the weather file: ") && text.ends_with(". Nothing of it was changed.")
        );
    }
    assert_eq!(
        words(&all[0], Measure(UnitSystem::Us)),
        "Check the weather file: from 5 January 04:00 the temperature falls by 27.0\u{a0}\u{b0}F in one hour and \
         comes back after 3 hours (the largest of 2), as when a sensor drops out or a number \
         stands for missing: leave such hours empty. Nothing of it was changed."
    );
}
