//! How cells look: typed prices blue on yellow, computed ones black, heads on grey.
//!
//! Start at [`Style`].

use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder};

const INK: Color = Color::RGB(0x26_32_38);
const QUIET: Color = Color::RGB(0x5F_6B_72);
const HEAD: Color = Color::RGB(0xE7_EC_EE);
const RULE: Color = Color::RGB(0xC3_CC_D0);
const INPUT: Color = Color::RGB(0xFF_F6_D0);
const INPUT_INK: Color = Color::RGB(0x1B_4F_9C);
const CHANGED: Color = Color::RGB(0xFF_D8_A8);

/// The formats of a workbook.
pub(super) struct Style {
    currency: String,
    /// The title of a sheet.
    pub(super) title: Format,
    /// What stands under it, and remarks.
    pub(super) quiet: Format,
    /// The head of a column of words.
    pub(super) head: Format,
    /// The head of a column of numbers.
    pub(super) head_right: Format,
    /// Words.
    pub(super) words: Format,
    /// Words beside a number: the unit, who says so.
    pub(super) beside: Format,
    /// The head of such a column.
    pub(super) head_beside: Format,
    /// Remarks over several lines.
    pub(super) remark: Format,
    /// Words over several lines.
    pub(super) wrapped: Format,
    /// Words of a line of totals.
    pub(super) total_words: Format,
    /// What marks a price that was changed.
    pub(super) changed: Format,
}

impl Style {
    pub(super) fn new(currency: &str) -> Self {
        let plain = Format::new().set_font_color(INK).set_align(FormatAlign::Top);
        let quiet = plain.clone().set_font_color(QUIET);
        let bold = plain.clone().set_bold();
        let head = bold.clone().set_background_color(HEAD).set_border_bottom(FormatBorder::Thin);
        let head = head.set_border_bottom_color(RULE).set_text_wrap().set_align(FormatAlign::VerticalCenter);
        Self {
            currency: currency.replace('"', ""),
            title: bold.clone().set_font_size(14.0),
            quiet: quiet.clone(),
            head_right: head.clone().set_align(FormatAlign::Right),
            head_beside: head.clone().set_indent(1),
            beside: plain.clone().set_indent(1),
            remark: quiet.clone().set_text_wrap(),
            head,
            wrapped: plain.clone().set_text_wrap(),
            words: plain,
            total_words: bold.set_border_top(FormatBorder::Thin).set_border_top_color(RULE),
            changed: Format::new().set_background_color(CHANGED).set_bold(),
        }
    }

    /// An amount of money to the hundredth.
    pub(super) fn money(&self) -> Format {
        self.words.clone().set_num_format(self.amount("#,##0.00")).set_align(FormatAlign::Right)
    }

    /// The same in a line of totals.
    pub(super) fn total(&self) -> Format {
        self.total_words.clone().set_num_format(self.amount("#,##0.00")).set_align(FormatAlign::Right)
    }

    /// A plain number with so many decimals.
    pub(super) fn number(&self, decimals: usize) -> Format {
        let places = if decimals == 0 { String::new() } else { format!(".{}", "0".repeat(decimals)) };
        self.of(&format!("#,##0{places}"))
    }

    /// A number in a form of the spreadsheet's own.
    pub(super) fn of(&self, form: &str) -> Format {
        self.words.clone().set_num_format(form).set_align(FormatAlign::Right)
    }

    /// The form of an amount of money: the sign before the currency's, as in the report.
    pub(super) fn amount(&self, digits: &str) -> String {
        let currency = &self.currency;
        format!("\"{currency}\"{digits};\"\u{2212}{currency}\"{digits}")
    }

    /// A cell to type in, with numbers in that form.
    pub(super) fn input(&self, form: &str) -> Format {
        let cell = self.of(form).set_background_color(INPUT).set_font_color(INPUT_INK);
        cell.set_border(FormatBorder::Thin).set_border_color(RULE)
    }
}
