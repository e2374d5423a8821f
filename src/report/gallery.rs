//! Every chart of a comparison, drawn, each with what it shows in words and the tables behind it.
//!
//! Start at [`charts`].

use super::charts::ChartError;
use super::figures::Measure;
use super::printed::Chart;
use super::studied::Studied;
use super::{
    bills, build, capacity_picture, life_cycle_picture, pictures, sway, tipping_picture, winter_pictures,
};
use crate::comparison::Comparison;
use crate::problem::Problem;

/// One chart before it is known whether it could be drawn.
struct Drawn {
    name: &'static str,
    svg: Result<String, ChartError>,
    words: &'static str,
    tables: &'static [&'static str],
}

/// The charts of a comparison and of what was studied beside it, in reading order.
///
/// # Errors
/// A chart that cannot be drawn.
pub fn charts(c: &Comparison, studied: &Studied) -> Result<Vec<Chart>, Problem> {
    let measure = Measure(c.units);
    let about = build::house_and_weather(c);
    let mut list = vec![
        Drawn {
            name: "yearly_cost",
            svg: pictures::yearly_cost(c, &about).draw(),
            words: "What each option costs in a year, by use.",
            tables: &["yearly_cost"],
        },
        Drawn {
            name: "capacity",
            svg: capacity_picture::capacity(c, measure, &about).draw(),
            words: "The heat each zone needs and the heat its machines can give, by outdoor temperature.",
            tables: &["cold_night"],
        },
    ];
    list.extend(winter_pictures::months(c, &about).map(|chart| Drawn {
        name: "monthly_cost",
        svg: chart.draw(),
        words: "What is paid for each option month by month.",
        tables: &["monthly_cost"],
    }));
    list.push(Drawn {
        name: "cold_hours",
        svg: winter_pictures::short_hours(c, measure, &about).draw(),
        words: "Hours of the year in which each option's first machines are not enough.",
        tables: &["warmth", "cold_night"],
    });
    list.extend(winter_pictures::coldest_week(c, measure, &about).map(|chart| Drawn {
        name: "coldest_week",
        svg: chart.draw(),
        words: "The coldest week: outdoors, the room, and the heat of the machines.",
        tables: &["warmth"],
    }));
    list.extend(bills::shown(c).map(|bill| Drawn {
        name: "bill",
        svg: pictures::bill(c, &bill, &about).draw(),
        words: "What is on the bills of the dearest month.",
        tables: &["bill"],
    }));
    list.extend(of_stores(c, &about));
    list.extend(life_cycle_picture::spent(c, &about).map(|chart| Drawn {
        name: "spent_by_year",
        svg: chart.draw(),
        words: "What will have been spent by the end of each year.",
        tables: &["life_cycle_cost"],
    }));
    let charts: Result<Vec<Chart>, Problem> = list.into_iter().map(finished).collect();
    Ok([charts?, of_studies(c, studied)?].concat())
}

/// Where two options cost the same, and what moves the difference between them.
///
/// # Errors
/// A chart that cannot be drawn.
pub fn of_studies(c: &Comparison, studied: &Studied) -> Result<Vec<Chart>, Problem> {
    let about = &build::house_and_weather(c);
    let map = studied.map.as_ref().map(|map| Drawn {
        name: "price_map",
        svg: tipping_picture::price_map(c, map, about).draw(),
        words: "Which of two options costs less at which prices.",
        tables: &["tipping_price"],
    });
    let sway = studied.sway.as_ref().map(|found| Drawn {
        name: "sway",
        svg: sway::picture(c, found, about).draw(),
        words: "What each input, moved by itself, does to the difference between two options.",
        tables: &["sway"],
    });
    map.into_iter().chain(sway).map(finished).collect()
}

/// Charts of stores, where there is one.
fn of_stores(c: &Comparison, about: &str) -> Vec<Drawn> {
    let level = pictures::tank_level(c, about).map(|chart| Drawn {
        name: "tank_level",
        svg: chart.draw(),
        words: "The fuel in the store through the year.",
        tables: &["stores", "deliveries"],
    });
    let paid = pictures::prices_paid(c, about).map(|chart| Drawn {
        name: "prices_paid",
        svg: chart.draw(),
        words: "The price of the day, and what each truck was paid.",
        tables: &["fuel_paid", "deliveries"],
    });
    level.into_iter().chain(paid).collect()
}

fn finished(drawn: Drawn) -> Result<Chart, Problem> {
    let failed = |e| Problem::new(format!("the chart '{}' cannot be drawn: {e}", drawn.name));
    Ok(Chart {
        name: drawn.name.into(),
        svg: drawn.svg.map_err(failed)?,
        words: drawn.words.into(),
        tables: drawn.tables.iter().map(|name| (*name).to_owned()).collect(),
    })
}
