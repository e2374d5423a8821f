//! The quality pass on hours that no thermometer sent: signs lost, days in another unit, rows filled up, hours
//! of another clock. Each defect is put into the built-in years; no actual year at hand raises a flag.

use crate::climate_quality::{changed, only, without_sun, years};
use crate::weather_originals::{CHICAGO, FRANCE, NORTHWAY, options, record, year};
use winterledger::series::Hourly;
use winterledger::units::{celsius_to_fahrenheit, fahrenheit_to_celsius};
use winterledger::weather::quality::{Cycle, Degree, Edge, Filling, Flag, flags};
use winterledger::weather::{GapRule, OutdoorYear};

/// The 27 actual years that are kept under `tests/data/weather`.
fn actual_years() -> Vec<OutdoorYear> {
    let mut all = NORTHWAY
        .map(|name| year(name, &options(chrono_tz::America::Anchorage, GapRule::NeighbouringDays)))
        .to_vec();
    let records = [(&CHICAGO[..], chrono_tz::America::Chicago), (&FRANCE[..], chrono_tz::Europe::Paris)];
    for (names, zone) in records {
        let record = record(names, &options(zone, GapRule::Line));
        all.extend(record.calendar_years().into_iter().filter_map(|number| record.calendar_year(number)));
    }
    all
}

#[test]
fn no_actual_year_raises_a_flag() {
    let all = actual_years();
    assert_eq!(all.len(), 27);
    for year in all {
        assert_eq!(flags(&year), [], "{} {}", year.place, year.calendar_year());
    }
}

/// Signs lost are |T| in the file's unit.
fn signs_lost(year: &OutdoorYear, degree: Degree, hours: std::ops::Range<usize>) -> OutdoorYear {
    let lost = |c: f64| match degree {
        Degree::Celsius => c.abs(),
        Degree::Fahrenheit => fahrenheit_to_celsius(celsius_to_fahrenheit(c).abs()),
    };
    changed(year, |all| all[hours.clone()].iter_mut().for_each(|c| *c = lost(*c)))
}

#[test]
fn signs_that_were_lost_are_told_with_the_unit_of_their_zero() {
    for year in years() {
        // Every built-in place has frost; 0 °F and less for 40 hours and more only these.
        let mut degrees = vec![Degree::Celsius];
        if ["Northway, Alaska", "Chicago O'Hare, Illinois"].contains(&year.place.as_str()) {
            degrees.push(Degree::Fahrenheit);
        }
        for degree in degrees {
            let found = flags(&signs_lost(&year, degree, 0..8760));
            let told = found.iter().any(
                |flag| matches!(flag, Flag::FloorAtZero { degree: d, months: None, .. } if *d == degree),
            );
            assert!(told, "{} {degree:?}: {found:?}", year.place);
        }
    }
}

/// January alone, 744 hours; Tucson's has 21 hours of frost.
#[test]
fn a_month_without_its_signs_is_told_by_that_alone() {
    for year in years() {
        let found = flags(&signs_lost(&year, Degree::Celsius, 0..744));
        let told = found
            .iter()
            .any(|flag| matches!(flag, Flag::FloorAtZero { months: Some(1), .. } | Flag::UpsideDown { .. }));
        let apart = found.iter().any(|flag| matches!(flag, Flag::MonthsApart { .. }));
        assert!((told || year.place.starts_with("Tucson")) && !apart, "{}: {found:?}", year.place);
    }
}

/// Eleven days of January: where most of their 264 hours are frost (230 in Greensboro; 78 in Golden) they turn over.
#[test]
fn days_without_their_signs_are_upside_down() {
    for year in years() {
        let frost = year.columns.dry_bulb_c[96..360].iter().filter(|c| **c < 0.0).count();
        let found = flags(&signs_lost(&year, Degree::Celsius, 96..360));
        let told = found
            .iter()
            .any(|flag| matches!(flag, Flag::UpsideDown { degree: Degree::Celsius, days, .. } if *days >= 4));
        assert_eq!(told, frost > 200, "{} {frost}: {found:?}", year.place);
    }
}

/// Two weeks of frosty nights between days above 0 °C, their signs lost.
#[test]
fn nights_without_their_signs_are_thrown_back() {
    // By the year's own hours: in the first fortnight of which 12 days and more have frost and each of those a thaw.
    let fortnight = |hours: &[f64]| {
        let days: Vec<&[f64]> = hours.chunks_exact(24).collect();
        let both = |day: &&[f64]| day.iter().any(|c| *c < -0.5) && day.iter().any(|c| *c > 0.0);
        let first = days.windows(14).position(|days| days.iter().filter(|day| both(day)).count() >= 12)?;
        Some(first * 24..(first + 14) * 24)
    };
    let mut found = (0, 0);
    for year in years().into_iter().chain(actual_years()) {
        let Some(range) = fortnight(&year.columns.dry_bulb_c) else { continue };
        let flags = flags(&signs_lost(&year, Degree::Celsius, range.clone()));
        let told = flags.iter().any(|flag| {
            matches!(
                flag,
                Flag::ThrownBack { degree: Degree::Celsius, times: 4.., .. } | Flag::UpsideDown { .. }
            )
        });
        found = (found.0 + usize::from(told), found.1 + 1);
    }
    // A snapshot: all of the years at hand that have such a fortnight.
    assert_eq!(found, (22, 22));
}

/// In no year at hand, in tenths or whole degrees, and with any of these degrees (K) taken for zero.
#[test]
fn no_year_is_thrown_back_at_any_degree() {
    let whole_f = |c: f64| fahrenheit_to_celsius(celsius_to_fahrenheit(c).round());
    for year in years().into_iter().chain(actual_years()) {
        for round in [&(|c: f64| c) as &dyn Fn(f64) -> f64, &f64::round, &whole_f] {
            for zero in [-10.0, -4.0, 0.0, 8.0, 10.0, 12.0] {
                let moved = changed(&year, |hours| hours.iter_mut().for_each(|c| *c = round(*c) - zero));
                let told = flags(&moved).into_iter().find(|flag| matches!(flag, Flag::ThrownBack { .. }));
                assert_eq!(told, None, "{} {} {zero}", year.place, year.calendar_year());
            }
        }
    }
}

/// The first and the last week of the year. In Northway's winter both units meet, and so they do in Chicago's first
/// week.
#[test]
fn a_week_in_the_other_unit_at_the_edge_of_the_year_is_told() {
    for year in years().into_iter().filter(|year| !year.place.starts_with("Northway")) {
        for (range, edge) in [(0..168, Edge::Beginning), (8592..8760, Edge::End)] {
            for (unit, read) in [
                (Degree::Fahrenheit, celsius_to_fahrenheit as fn(f64) -> f64),
                (Degree::Celsius, fahrenheit_to_celsius as fn(f64) -> f64),
            ] {
                let mixed = changed(&year, |hours| {
                    hours[range.clone()].iter_mut().for_each(|c| *c = read(*c));
                });
                let found = flags(&mixed);
                let told = found.iter().any(|flag| {
                    matches!(flag, Flag::StretchOfOtherUnit { hours: 168, looks_like, at_edge, .. }
                        if *at_edge == Some(edge) && *looks_like == unit)
                });
                let cold =
                    year.place.starts_with("Chicago") && (unit, edge) == (Degree::Celsius, Edge::Beginning);
                assert!(told != cold, "{} {unit:?} {edge:?}: {found:?}", year.place);
            }
        }
    }
}

/// From 22:00 on for eight hours each night one value, in every second week.
#[test]
fn a_sensor_that_sticks_every_night_is_told() {
    for year in years() {
        let stuck = changed(&year, |hours| {
            for start in (22..8700).step_by(24).filter(|hour| hour / 168 % 2 == 0) {
                let value = hours[start];
                hours[start..start + 8].fill(value);
            }
        });
        let found = flags(&stuck);
        // 26 weeks are 182 nights by hand, and where they hold by themselves some more.
        let told = |flag: &Flag| matches!(flag, Flag::StuckDaily { hour: 3..=5, hours: 6, days } if (175..220).contains(days));
        assert!(found.iter().any(told), "{}: {found:?}", year.place);
    }
}

#[test]
fn a_week_in_the_other_unit_is_told_with_its_first_hour() {
    for year in years() {
        let into = [
            (Degree::Fahrenheit, celsius_to_fahrenheit as fn(f64) -> f64),
            (Degree::Celsius, fahrenheit_to_celsius as fn(f64) -> f64),
        ];
        for (unit, read) in into {
            // 3, 7 and 14 days in spring, summer and autumn: Northway's winter lies where the units meet.
            for (from, days) in [(2400, 3), (4344, 7), (6504, 14)] {
                let mixed = changed(&year, |hours| {
                    hours[from..from + days * 24].iter_mut().for_each(|c| *c = read(*c));
                });
                let found = flags(&mixed);
                let told = found.iter().any(|flag| {
                    matches!(flag, Flag::StretchOfOtherUnit { hours, looks_like, .. }
                        if *hours == days * 24 && *looks_like == unit)
                });
                assert!(told, "{} {unit:?} {from}: {found:?}", year.place);
            }
        }
    }
}

#[test]
fn hours_made_of_rows_every_few_hours_are_told_with_how_many() {
    for year in years() {
        let real = year.columns.dry_bulb_c.to_vec();
        for every in [2, 3, 4, 6, 12] {
            let repeated = changed(&year, |hours| {
                (0..8760).for_each(|hour| hours[hour] = real[hour / every * every]);
            });
            let filled = |by| Flag::FilledRows { every, by };
            let found = flags(&repeated);
            assert!(found.contains(&filled(Filling::Repeated)), "{} {every}: {found:?}", year.place);
            let lines = changed(&year, |hours| {
                for (hour, c) in hours.iter_mut().enumerate() {
                    let (row, share) = (hour / every * every, (hour % every) as f64 / every as f64);
                    let next = real[(row + every) % 8760];
                    // As files write it.
                    *c = ((real[row] + (next - real[row]) * share) * 10.0).round() / 10.0;
                }
            });
            let found = flags(&lines);
            // Beside lines over half a day the day's own course bends as little.
            assert!(
                every == 12 || found.contains(&filled(Filling::Line)),
                "{} {every}: {found:?}",
                year.place
            );
        }
    }
}

/// Two hours off, either way, by the morning's warming where the place is known and the file has no sun.
#[test]
fn a_clock_two_hours_off_is_told_where_the_place_is_known() {
    let all = actual_years();
    let [northway, chicago, france] = [(62.97, -141.93, -9.0), (41.98, -87.92, -6.0), (48.45, 5.59, 1.0)];
    let places = [northway, northway, chicago, chicago, chicago].into_iter().chain([france; 22]);
    let placed = all.into_iter().zip(places).map(|(year, (latitude, longitude, utc_offset_h))| OutdoorYear {
        latitude: Some(latitude),
        longitude: Some(longitude),
        utc_offset_h: Some(utc_offset_h),
        ..year
    });
    for year in placed.chain(years().into_iter().map(without_sun)) {
        assert_eq!(flags(&year), [], "{} {}", year.place, year.calendar_year());
        let hours = year.columns.dry_bulb_c.len();
        for by in [2, hours - 2] {
            let mut late = year.clone();
            late.columns.dry_bulb_c = year.columns.dry_bulb_c.clone().rotated(hours - by);
            let found = flags(&late);
            let told = found
                .iter()
                .any(|flag| matches!(flag, Flag::HourOfDay { by: Cycle::Morning | Cycle::Temperature, .. }));
            assert!(told, "{} {} {by}: {found:?}", year.place, year.calendar_year());
        }
    }
}

/// Three hours early, where the file says nothing of its place; not two, which some place far east in its zone has.
#[test]
fn a_clock_three_hours_early_is_told_without_a_place() {
    for year in actual_years().into_iter().chain(years().into_iter().map(without_sun)) {
        let nowhere = OutdoorYear { latitude: None, longitude: None, utc_offset_h: None, ..year };
        assert_eq!(flags(&nowhere), [], "{} {}", nowhere.place, nowhere.calendar_year());
        let mut early = nowhere.clone();
        early.columns.dry_bulb_c = nowhere.columns.dry_bulb_c.clone().rotated(3);
        let found = flags(&early);
        let told = found.iter().any(|flag| matches!(flag, Flag::HourOfDay { .. }));
        assert!(told, "{} {}: {found:?}", nowhere.place, nowhere.calendar_year());
    }
}

/// Hours of UTC under the name of standard time, and standard time that was shifted as though it were UTC.
#[test]
fn days_that_are_warmest_at_an_hour_no_place_has_are_told() {
    for year in years() {
        let offset = year.utc_offset_h.unwrap();
        let turned = |year: &OutdoorYear, by: i64| {
            let by = usize::try_from(by.rem_euclid(8760)).unwrap();
            let turn = |hours: &Hourly<f64>| hours.clone().rotated(8760 - by);
            let mut turned = year.clone();
            turned.columns.dry_bulb_c = turn(&year.columns.dry_bulb_c);
            turned.columns.global_w_m2 = year.columns.global_w_m2.as_ref().map(turn);
            turned
        };
        // In UTC the afternoon comes later by the offset; shifted twice, earlier.
        for by in [-offset as i64, offset as i64] {
            let plain = without_sun(year.clone());
            let nowhere = OutdoorYear { longitude: None, latitude: None, ..plain.clone() };
            for shifted in [turned(&plain, by), turned(&nowhere, by)] {
                let Flag::HourOfDay { by: Cycle::Temperature, hour, usual } = only(&shifted) else {
                    panic!()
                };
                assert!(hour < usual.0 || hour > usual.1, "{}: {hour} {usual:?}", year.place);
            }
        }
        // Where the file has the sun an hour is enough.
        for by in [-1, 1] {
            let Flag::HourOfDay { by: Cycle::Sun, hour, usual } = only(&turned(&year, by)) else { panic!() };
            let middle = (usual.0 + usual.1) / 2.0;
            assert!((hour - middle - by as f64).abs() < 0.2, "{}: {hour} {usual:?}", year.place);
        }
    }
}

/// Sun and temperature may be of two sources; half a day moves the sun from noon to midnight.
#[test]
fn temperatures_that_were_shifted_alone_and_a_sun_at_midnight_are_told() {
    for year in years() {
        for by in [3, 6, 11, 12] {
            let turn = |hours: &Hourly<f64>| hours.clone().rotated(8760 - by);
            let mut shifted = year.clone();
            shifted.columns.dry_bulb_c = turn(&year.columns.dry_bulb_c);
            let found = flags(&shifted);
            let told = found
                .iter()
                .any(|flag| matches!(flag, Flag::HourOfDay { by: Cycle::Temperature | Cycle::Morning, .. }));
            assert!(told, "{} {by}: {found:?}", year.place);
            shifted.columns.global_w_m2 = year.columns.global_w_m2.as_ref().map(turn);
            let Flag::HourOfDay { by: Cycle::Sun, hour, .. } = only(&shifted) else { panic!() };
            // About noon and so many hours later, by hand.
            let late = (hour - 12.0 - by as f64 + 12.0).rem_euclid(24.0) - 12.0;
            assert!(late.abs() < 1.5, "{} {by}: {hour}", year.place);
        }
    }
}

/// Means over a day, and over an hour less or more, have no nights.
#[test]
fn running_means_over_a_day_are_told() {
    for year in years().into_iter().chain(actual_years()) {
        for over in [23, 24, 25] {
            let real = year.columns.dry_bulb_c.to_vec();
            let mean = |hour: usize| {
                let hours = (0..over).map(|i| real[(hour + real.len() + i - over / 2) % real.len()]);
                (hours.sum::<f64>() / over as f64 * 10.0).round() / 10.0
            };
            let smooth = changed(&year, |hours| {
                hours.iter_mut().enumerate().for_each(|(hour, value)| *value = mean(hour));
            });
            let found = flags(&smooth);
            // Where what is left within a day is next to nothing, that is told.
            let told = found.iter().any(|flag| matches!(flag, Flag::NoCycle { .. } | Flag::Smoothed { .. }));
            assert!(told, "{} {over}: {found:?}", year.place);
        }
    }
}

#[test]
fn many_short_stretches_of_one_value_are_added_up() {
    for year in years() {
        // 18 runs of 12 hours are 216, five are 60, by hand; each beside what the year has of its own.
        let stuck = |runs: usize| {
            changed(&year, |hours| {
                for run in 0..runs {
                    let at = 200 + run * 400;
                    let value = hours[at] + 0.03;
                    hours[at..at + 12].fill(value);
                }
            })
        };
        let often = |year: &OutdoorYear| {
            flags(year).iter().any(|flag| matches!(flag, Flag::StuckOften { hours, .. } if *hours >= 216))
        };
        assert!(often(&stuck(18)) && !often(&stuck(5)), "{}", year.place);
    }
}

/// Rounded to whole degrees of either unit, no actual and no built-in year looks stuck; what is stuck in one still
/// does, where days have a cycle from 25 hours on.
#[test]
fn whole_degrees_hold_a_value_longer() {
    let told = |flag: &Flag| {
        matches!(flag, Flag::Stuck { .. } | Flag::StuckOften { .. } | Flag::RepeatedDays { .. })
    };
    let whole_f = |c: f64| fahrenheit_to_celsius(celsius_to_fahrenheit(c).round());
    for (year, built_in) in
        actual_years().into_iter().map(|y| (y, false)).chain(years().into_iter().map(|y| (y, true)))
    {
        for round in [&f64::round as &dyn Fn(f64) -> f64, &whole_f] {
            let whole = changed(&year, |hours| hours.iter_mut().for_each(|c| *c = round(*c)));
            let found: Vec<Flag> = flags(&whole).into_iter().filter(told).collect();
            assert_eq!(found, [], "{} {}", year.place, year.calendar_year());
            let stuck = changed(&whole, |hours| {
                let value = hours[4000];
                hours[4000..4025].fill(value);
            });
            let found = flags(&stuck).iter().any(|f| matches!(f, Flag::Stuck { hours, .. } if *hours >= 25));
            assert!(found || !built_in, "{}", year.place);
        }
    }
}
