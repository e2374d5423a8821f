//! Turns display-ready values into pictures: an SVG string with real text, and a PNG of it.
//!
//! Nothing here may know what a heat pump or a price is, convert a unit, or read any other module
//! of the crate: the caller hands over numbers in the units that are shown. Start at
//! [`CostChart`] and [`CapacityChart`]; `canvas` alone knows the drawing library.

pub mod fonts;
mod error;
mod numbers;
mod palette;
mod canvas;
mod placing;
mod notes;
mod frame;
mod png;
mod costs;
mod cost_bars;
mod cost_chart;
mod curves;
mod end_labels;
mod line_names;
mod panel;
mod panel_drawing;
mod capacity;
mod contour;
mod price_plane;
mod price_chart;
mod sway_bars;
mod sway_chart;
mod spent;
mod spent_lines;
mod spent_chart;
mod months;
mod short_hours;
mod week_curves;
mod week_panel;
mod week;
mod year_curves;
mod year_panel;
mod bin_panel;
mod weather_year;
mod price_days;
mod price_days_panel;
mod price_days_chart;
mod past_prices;
mod past_panels;
mod past_chart;
mod tank_levels;
mod tank_panel;
mod tank_level;

pub use capacity::CapacityChart;
pub use cost_chart::CostChart;
pub use costs::CostBar;
pub use curves::{Balance, CapacityPanel, MachineCurve, Mark};
pub use error::ChartError;
pub use months::{MonthLine, MonthsChart};
pub use palette::option_colour;
pub use past_prices::{HistoryChart, PriceRange};
pub use png::{picture_tree, png};
pub use price_days::{PriceDaysChart, PriceDaysPanel};
pub use price_plane::{PriceAxis, PriceChart, PriceMark};
pub use short_hours::{ShortHours, ShortHoursChart};
pub use spent::SpentLine;
pub use spent_chart::SpentChart;
pub use sway_bars::{SwayBar, SwayChart};
pub use tank_levels::{TankChart, TankPanel};
pub use week_curves::{WeekChart, WeekOption};
pub use year_curves::{DayRange, Moment, Stretch, WeatherYearChart};
