//! Everything that is tested from outside, in one program: linking twenty is slow. Start with the
//! module named after what is tested.

// A test fails by panicking; that is what these lints forbid in the program.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod balance;
mod charts;
mod charts_tank;
mod charts_winter;
mod cold_night;
mod cold_night_report;
mod climate_command;
mod climate_extremes;
mod climate_quality;
mod climate_synthetic;
mod commands_schema;
mod commands_start;
mod commands_weather;
mod command;
mod controls;
mod demo_job;
mod ducts;
mod draws;
mod gallery;
mod household;
mod job;
mod job_properties;
mod machines;
mod lanes;
mod levers;
mod life_cycle;
mod life_cycle_job;
mod mutated;
mod oracle;
mod oracle_agrees;
mod page;
mod page_one;
mod plausible;
mod print;
mod python;
mod ratings;
mod ratings_nameplate;
mod readme;
mod reference;
mod sheet;
mod sheet_command;
mod study;
mod scenarios;
mod steady_year;
mod tariffs;
mod tipping;
mod sway;
mod charts_prices;
mod supply;
mod supply_year;
mod weather;
mod weather_bad_input;
mod weather_dated;
mod weather_layouts;
mod weather_originals;
mod weather_text;
mod working;
mod zones;
