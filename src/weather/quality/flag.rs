//! One suspicion about hours of weather: values only, the words are made elsewhere.
//!
//! Must never know how a suspicion is found. Start at [`Flag`].

use chrono::{NaiveDate, NaiveDateTime};

/// One suspicion; times are the beginnings of hours in local standard time.
#[derive(Debug, Clone, PartialEq)]
pub enum Flag {
    /// The temperature jumps and jumps back, as when a sensor drops out.
    DropOut {
        /// The first hour of the largest one.
        at: NaiveDateTime,
        /// How long that one lasts, hours.
        hours: usize,
        /// The lesser of its two jumps, K; positive for a jump up.
        jump_k: f64,
        /// How many there are.
        times: usize,
    },
    /// The temperature stays the very same for long, as when a sensor is stuck or hours were filled.
    Stuck {
        /// The first hour of the longest run.
        at: NaiveDateTime,
        /// How long it lasts, hours.
        hours: usize,
        /// Its temperature, °C.
        temperature_c: f64,
        /// How many such runs there are.
        times: usize,
    },
    /// The temperature stays the same for half a day and more so often that weather hardly can.
    StuckOften {
        /// The first hour of the longest run.
        at: NaiveDateTime,
        /// How many runs of half a day and more there are.
        times: usize,
        /// Their hours together.
        hours: usize,
    },
    /// The temperature stays the same for hours at the same time of very many days.
    StuckDaily {
        /// The hour of the day at which it has stayed so.
        hour: usize,
        /// For how long at least, hours.
        hours: usize,
        /// On how many days.
        days: usize,
    },
    /// The temperature turns at 0 again and again and never passes it, as when minus signs were lost.
    FloorAtZero {
        /// The unit whose zero it is.
        degree: Degree,
        /// The first hour at the floor.
        at: NaiveDateTime,
        /// How often the floor is come down to, by the year or in the first such month.
        visits: usize,
        /// How many months have it where the year as a whole has not.
        months: Option<usize>,
    },
    /// Days that never fall below 0 are warmest by night, as when minus signs were lost.
    UpsideDown {
        /// The unit whose zero it is.
        degree: Degree,
        /// The first hour of the first of them.
        at: NaiveDateTime,
        /// How many there are.
        days: usize,
    },
    /// The temperature is thrown back at 0 where it would go on smoothly below, as when minus signs were lost.
    ThrownBack {
        /// The unit whose zero it is.
        degree: Degree,
        /// The first hour that would be below.
        at: NaiveDateTime,
        /// The end of the last.
        until: NaiveDateTime,
        /// How often it would go below.
        times: usize,
    },
    /// Some days look like another unit than the rest: they jump at both ends, and would not in that unit.
    StretchOfOtherUnit {
        /// Their first hour.
        at: NaiveDateTime,
        /// How long they last, hours.
        hours: usize,
        /// The unit that they look like, beside the other that the rest has once read.
        looks_like: Degree,
        /// The unit in which the file's column is written.
        written: Degree,
        /// The jump at their beginning, K; at their end where they begin with the year.
        jump_k: f64,
        /// Whether they begin or end with the year, so that only the other end shows it.
        at_edge: Option<Edge>,
    },
    /// The hours were made of rows every few hours, so that highs and lows of the days are lost.
    FilledRows {
        /// One in how many.
        every: usize,
        /// How they were made.
        by: Filling,
    },
    /// The day is warmest, or the sun in its middle, at an hour that is not the place's.
    HourOfDay {
        /// The hour of the day as the file has it, local standard time.
        hour: f64,
        /// What places have, from and to.
        usual: (f64, f64),
        /// Which cycle shows it.
        by: Cycle,
    },
    /// Whole days repeat another day hour for hour.
    RepeatedDays {
        /// The day that is repeated first.
        first: NaiveDate,
        /// Where it comes again.
        again: NaiveDate,
        /// How many days are repeats of an earlier one.
        days: usize,
    },
    /// Hours by temperature that add up to more or less than a year.
    BinsOfNoYear {
        /// Their sum.
        hours: f64,
    },
    /// Whole months repeat those of another year hour for hour, as when a file was copied.
    RepeatedMonths {
        /// The first of them.
        first: NaiveDate,
        /// Where it comes again.
        again: NaiveDate,
        /// How many months are repeats of an earlier year's.
        months: usize,
    },
    /// Twelve months of a record lack more than 5 % of their hours, so that nothing is run on them.
    Lacking {
        /// The year of the July with which the first such twelve months begin.
        first_year: i32,
        /// Hours that they lack.
        missing: usize,
        /// Hours that they should have.
        hours: usize,
        /// How many such twelve months the record has.
        times: usize,
    },
    /// The numbers look like another unit than the one they were read in.
    OtherUnit {
        /// The year's number, where it has one.
        year: Option<i32>,
        /// The unit that they look like.
        looks_like: Degree,
        /// The warm end as read, which 1 % of the hours pass, °C.
        warm_end_c: f64,
    },
    /// A number that many files write where nothing was measured stands among far warmer hours.
    MissingCode {
        /// The number as the file has it.
        code: f64,
        /// The unit in which it is that number.
        degree: Degree,
        /// The first such hour.
        at: NaiveDateTime,
        /// How many there are.
        hours: usize,
    },
    /// Two neighbouring months whose means are farther apart than the rest of the year makes likely, as when
    /// some months are in another unit or in another's place.
    MonthsApart {
        /// The months, from 1.
        months: (u8, u8),
        /// Their means, °C.
        means_c: (f64, f64),
    },
    /// The cold half of the year lies in the place's summer.
    WrongSeason {
        /// Whether the place is south of the equator, where latitude or clocks tell it.
        south: Option<bool>,
        /// How much warmer its winter half is than its summer half, K.
        warmer_k: f64,
    },
    /// Hours colder or warmer than this place can be.
    Impossible {
        /// The worst hour.
        at: NaiveDateTime,
        /// Its temperature, °C.
        temperature_c: f64,
        /// The bound that it passes, °C.
        limit_c: f64,
        /// What the bound rests on.
        by: Bound,
        /// How many hours pass it.
        hours: usize,
    },
    /// The days differ too little, as in a series of climate normals or of means.
    Smoothed {
        /// Standard deviation of the step from one day's mean to the next, K.
        day_to_day_k: f64,
        /// Mean of the days' greatest less least hour, K.
        daily_spread_k: f64,
    },
    /// Day and night are alike while the days differ, as in running means over a day.
    NoCycle {
        /// How far the first wave of the mean day goes from least to greatest, K.
        cycle_k: f64,
        /// Standard deviation of the step from one day's mean to the next, K.
        day_to_day_k: f64,
    },
    /// The daily cycle shifts between winter and summer, as when the clock's daylight saving is in the
    /// file.
    ClockShift {
        /// How much later the summer's day is, hours; 1 where summer hours carry clock time.
        hours: f64,
        /// Which cycle shows it.
        by: Cycle,
    },
}

/// An end of the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Its first hour.
    Beginning,
    /// Its last.
    End,
}

/// A unit of temperature that a file may be in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Degree {
    /// °C.
    Celsius,
    /// °F.
    Fahrenheit,
}

/// What a bound of temperature rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// The coldest known at low stations of this latitude, with the height.
    Latitude,
    /// The year's own cold or warm end and its own changes from day to day.
    OwnYear,
}

/// What goes round once a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cycle {
    /// The irradiance.
    Sun,
    /// The day's warmth.
    Temperature,
    /// The morning's warming after sunrise.
    Morning,
}

/// How hours were made of rows every few hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Filling {
    /// Each value stands for the hours after it.
    Repeated,
    /// By straight lines.
    Line,
}
