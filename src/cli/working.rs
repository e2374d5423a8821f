//! `working`: one moment of one zone as arithmetic.

use super::arguments::Working;
use super::{Failure, choosing, input, output};
use crate::calendar::{MonthDay, Stamp};
use crate::comparison::working::{Moment, work_out};
use crate::comparison::{Comparison, RunWeather, compare};
use crate::problem::{Problem, choices};
use crate::report::figures::Measure;
use crate::report::working::lines;
use crate::units::{Quantity, Temperature};

/// No place on earth is colder or warmer, °C; a job's own limits outdoors.
const COLDEST_C: f64 = -90.0;
const WARMEST_C: f64 = 60.0;

/// Runs the command.
pub(crate) fn run(arguments: &Working) -> Result<(), Failure> {
    let place = &arguments.place;
    let job = input::job(place.job.as_deref(), &place.changes)?;
    let weather = input::weather(&job, place.job.as_deref())?;
    let comparison =
        compare(&job, &weather).map_err(|problems| Failure::Given(problems, Some(job.text.clone())))?;
    let options: Vec<&str> = comparison.options.iter().map(|o| o.design.name.as_str()).collect();
    let option = match (&place.option, options.as_slice()) {
        (Some(name), _) => named("option", name, &options)?,
        (None, [_]) => 0,
        (None, _) => return Err(choosing::ask("working", place, &options).into()),
    };
    let zones: Vec<&str> = comparison.zones.iter().map(|z| z.name.as_str()).collect();
    let zone = place.zone.as_ref().map_or(Ok(0), |name| named("zone", name, &zones))?;
    let moment = moment(arguments, &comparison)?;
    let worked = work_out(&comparison, option, zone, moment)
        .ok_or_else(|| Problem::new("this weather has no such hour").help("Use --outdoor instead"))?;
    output::result(&(lines(&worked, &comparison).join("\n") + "\n"))
}

fn named(what: &str, name: &str, names: &[&str]) -> Result<usize, Problem> {
    names.iter().position(|n| *n == name).ok_or_else(|| {
        Problem::new(format!("there is no {what} '{name}'"))
            .allowed(choices(names.iter().copied()))
            .help("Name one of these")
    })
}

fn moment(arguments: &Working, c: &Comparison) -> Result<Moment, Problem> {
    match (&arguments.at, &arguments.outdoor) {
        (Some(at), _) => hour(at, c).map(Moment::Hour),
        (None, Some(outdoor)) => steady(outdoor, c).map(Moment::Outdoor),
        (None, None) => Err(Problem::new("neither --at nor --outdoor is given")),
    }
}

/// An outdoor temperature, °C, within what a job may have.
fn steady(outdoor: &str, c: &Comparison) -> Result<f64, Problem> {
    let measure = Measure(c.units);
    let help = format!("Write --outdoor \"{}\"", measure.pick("17 degF", "-8 degC"));
    let read = Temperature::parse(outdoor).map(|t| t.base());
    let celsius = read.map_err(|e| Problem::new(format!("--outdoor {outdoor}: {e}")).help(&help))?;
    if (COLDEST_C..=WARMEST_C).contains(&celsius) {
        return Ok(celsius);
    }
    let (low, high) = (measure.temperature_words(COLDEST_C), measure.temperature_words(WARMEST_C));
    let problem = Problem::new(format!("--outdoor {outdoor} is out of range"));
    Err(problem.allowed(format!("{low} to {high}")).help(help))
}

/// The first hour of the run whose clock shows that month, day and hour.
fn hour(at: &str, c: &Comparison) -> Result<usize, Problem> {
    let unreadable = || {
        Problem::new(format!("--at {at}: not a month-day and an hour"))
            .allowed("a day from 01-01 to 12-31 and an hour from 00 to 23, by the clock on the wall")
            .help("Write --at \"01-24 06\"")
    };
    let (date, clock) = at.trim().split_once([' ', 'T']).ok_or_else(unreadable)?;
    let date = MonthDay::parse(date).ok_or_else(unreadable)?;
    let clock: u8 = clock.split(':').next().unwrap_or_default().parse().map_err(|_| unreadable())?;
    if clock > 23 {
        return Err(unreadable());
    }
    let RunWeather::Year(year) = &c.weather else {
        return Err(Problem::new("this weather has no hours in order").help("Use --outdoor instead"));
    };
    let run = year.run(c.site.zone);
    let stamps = run.calendar.stamps();
    let is_day = |s: &Stamp| (s.month, s.day) == (date.month, date.day);
    let found = stamps.iter().position(|s| is_day(s) && s.hour == clock);
    found.ok_or_else(|| match stamps.iter().any(is_day) {
        true => {
            Problem::new(format!("--at {at}: the clock is put forward in that night and skips this hour"))
                .help("Write the hour before or after; the weather goes by standard time and has them all")
        }
        false => {
            Problem::new(format!("--at {at}: the year that is run has no such day")).help("Write another day")
        }
    })
}
