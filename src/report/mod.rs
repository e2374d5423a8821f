//! Results in a form for people and for other programs: one [`Report`] of tables and sentences, then
//! one renderer a format. Renderers do no arithmetic beyond rounding.
//!
//! Start at [`build`], which words a comparison; [`folder`] writes files into a folder.

pub mod charts;
pub mod figures;
pub mod model;
pub mod band;
pub mod weather_flags;
pub mod reading;
pub mod oddities;
pub mod supply_words;
pub mod bill_words;
pub mod extremes;
pub mod wording;
pub mod slow;
pub mod warmth;
pub mod cold_night;
pub mod cold_night_details;
pub mod cold_night_json;
pub mod money;
pub mod bills;
pub mod supply;
mod supply_json;
pub mod life_cycle;
pub mod life_cycle_verdict;
pub mod life_cycle_json;
pub mod life_cycle_picture;
pub mod air;
pub mod given;
pub mod worksheet;
pub mod studies;
pub mod scenarios;
pub mod levers;
pub mod tipping;
pub mod tipping_picture;
pub mod sway;
pub mod sway_json;
pub mod working;
pub mod pictures;
pub mod winter_pictures;
pub mod walls;
pub mod chart_tables;
pub mod build;
pub mod front;
pub mod logo;
pub mod sheet;
pub mod print;
pub mod printed;
pub mod gallery;
pub mod weather_figures;
pub mod weather_summary;
pub mod weather_picture;
pub mod terminal;
pub mod tipping_json;
pub mod json;
pub mod draws;
pub mod tables_json;
pub mod what_if_json;
pub mod job_check;
pub mod csv_text;
pub mod page;
pub mod spreadsheet;
pub mod files;
pub mod folder;

pub use model::{Align, Cell, Column, Report, Table};
