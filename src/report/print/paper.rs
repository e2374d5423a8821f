//! Sheets of paper and their margins, in points (1/72 inch).
//!
//! Start at [`Paper`].

/// A sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// 8.5 by 11 inches.
    #[default]
    Letter,
    /// 210 by 297 mm.
    A4,
}

/// A rectangle on a page, points from the left and the top.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// From the page's left edge.
    pub left: f64,
    /// From the page's top edge.
    pub top: f64,
    /// How wide.
    pub width: f64,
    /// How high.
    pub height: f64,
}

impl Area {
    /// The right edge.
    pub fn right(&self) -> f64 {
        self.left + self.width
    }

    /// The lower edge.
    pub fn bottom(&self) -> f64 {
        self.top + self.height
    }
}

impl Paper {
    /// Width and height.
    ///
    /// ```
    /// use winterledger::report::print::Paper;
    /// assert_eq!(Paper::Letter.size(), (612.0, 792.0)); // 8.5 · 72, 11 · 72
    /// ```
    pub fn size(self) -> (f64, f64) {
        match self {
            Self::Letter => (612.0, 792.0),
            Self::A4 => (210.0 / 25.4 * 72.0, 297.0 / 25.4 * 72.0),
        }
    }

    /// Where a page's blocks stand; the foot stands below.
    pub fn body(self) -> Area {
        let (width, height) = self.size();
        Area { left: 48.0, top: 44.0, width: width - 96.0, height: height - 44.0 - 52.0 }
    }

    /// The line of the page's foot.
    pub fn foot_line(self) -> f64 {
        self.size().1 - 30.0
    }
}
