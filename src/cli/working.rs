//! `working`: one moment of one zone as arithmetic.

use super::arguments::Working;
use super::{Failure, input, output};
use crate::calendar::MonthDay;
use crate::comparison::working::{Moment, work_out};
use crate::comparison::{Comparison, RunWeather, compare};
use crate::problem::Problem;
use crate::report::working::lines;
use crate::units::{Quantity, Temperature};

/// Runs the command.
pub(crate) fn run(arguments: &Working) -> Result<(), Failure> {
    let place = &arguments.place;
    let job = input::job(place.job.as_deref(), &place.changes)?;
    let weather = input::weather(&job, place.job.as_deref())?;
    let comparison =
        compare(&job, &weather).map_err(|problems| Failure::Given(problems, Some(job.text.clone())))?;
    let options: Vec<&str> = comparison.options.iter().map(|o| o.design.name.as_str()).collect();
    let option = named("option", &place.option, &options)?;
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
            .allowed(names.join(", "))
            .help("Name one of these")
    })
}

fn moment(arguments: &Working, c: &Comparison) -> Result<Moment, Problem> {
    match (&arguments.at, &arguments.outdoor) {
        (Some(at), _) => hour(at, c).map(Moment::Hour),
        (None, Some(outdoor)) => Temperature::parse(outdoor)
            .map(|t| Moment::Outdoor(t.base()))
            .map_err(|e| Problem::new(format!("--outdoor {outdoor}: {e}"))),
        (None, None) => Err(Problem::new("neither --at nor --outdoor is given")),
    }
}

/// The first hour of the run whose clock shows that month, day and hour.
fn hour(at: &str, c: &Comparison) -> Result<usize, Problem> {
    let unreadable =
        || Problem::new(format!("--at {at}: not a month-day and an hour")).help("Write --at \"01-24 06\"");
    let (date, clock) = at.trim().split_once([' ', 'T']).ok_or_else(unreadable)?;
    let date = MonthDay::parse(date).ok_or_else(unreadable)?;
    let clock: u8 = clock.split(':').next().unwrap_or_default().parse().map_err(|_| unreadable())?;
    let RunWeather::Year(year) = &c.weather else {
        return Err(Problem::new("this weather has no hours in order").help("Use --outdoor instead"));
    };
    let run = year.run(c.site.zone);
    let found =
        run.calendar.stamps().iter().position(|s| (s.month, s.day, s.hour) == (date.month, date.day, clock));
    found.ok_or_else(|| Problem::new(format!("--at {at}: the year has no such hour")))
}
