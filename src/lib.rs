//! winterledger compares ways to heat and cool one house: what each costs in a year at the prices of
//! a job, and whether it carries the house through the cold, hour by hour on a weather year.
//!
//! Data flows down the list of modules once; a module uses only those above it.
//!
//! ```
//! use winterledger::{comparison, job, weather::{Weather, places}};
//!
//! let text = include_str!("../data/demo.toml").to_owned();
//! let job = job::reader::read("demo.toml", text).unwrap(); // what was typed
//! let weather = Weather::Year(Box::new(places::open("il-chicago").unwrap())); // outdoor hours
//! let side_by_side = comparison::compare(&job, &weather).unwrap(); // needs, machines, prices, hours
//! let alone = side_by_side.options.iter().find(|o| o.design.name == "Heat pumps alone").unwrap();
//! assert!(alone.hours_not_kept_warm() > 0); // cheap, and cold
//! ```
//!
//! Every result is an estimate: not a quote, nor the load calculation or fuel-gas design that a permit
//! needs. Local codes and a licensed contractor decide.

pub mod units;
pub mod problem;
pub mod calendar;
pub mod series;
pub mod chance;
pub mod sources;
pub mod fuel;
pub mod lane;
pub mod job;
pub mod weather;
pub mod equipment;
pub mod load;
pub mod prices;
pub mod simulation;
pub mod supply;
pub mod ledger;
pub mod emissions;
pub mod economics;
pub mod coldnight;
pub mod comparison;
pub mod study;
pub mod report;
pub mod cli;
