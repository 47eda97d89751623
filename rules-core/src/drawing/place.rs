//! Places and directions on the sheet, in millimetres: x to the right, y down.

/// A place on the sheet, or the way from one place to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct SheetPoint {
    pub x: f64,
    pub y: f64,
}

impl SheetPoint {
    pub fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub fn to(self, other: SheetPoint) -> SheetPoint {
        SheetPoint::new(other.x - self.x, other.y - self.y)
    }

    /// This place moved along a way by a share of it.
    pub fn along(self, way: SheetPoint, share: f64) -> SheetPoint {
        SheetPoint::new(self.x + way.x * share, self.y + way.y * share)
    }

    pub fn middle(self, other: SheetPoint) -> SheetPoint {
        self.along(self.to(other), 0.5)
    }

    pub fn length(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// The same direction, one millimetre long; zero where there is no direction.
    pub fn unit(self) -> SheetPoint {
        let length = self.length();
        match length > 0.0 {
            true => SheetPoint::new(self.x / length, self.y / length),
            false => SheetPoint::new(0.0, 0.0),
        }
    }

    /// A quarter turn anticlockwise, as seen on the sheet.
    pub fn left(self) -> SheetPoint {
        SheetPoint::new(self.y, -self.x)
    }

    /// The angle of a way in degrees, turned so that text along it reads from below or from the right.
    pub fn reading_angle(self) -> f64 {
        let angle = libm::atan2(self.y, self.x).to_degrees();
        match angle {
            angle if angle >= 89.5 => angle - 180.0,
            angle if angle < -90.5 => angle + 180.0,
            angle => angle,
        }
    }
}

/// A box on the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Frame {
    pub low: SheetPoint,
    pub high: SheetPoint,
}

impl Frame {
    /// The box around some places; `None` if there are none.
    pub fn around(spots: impl Iterator<Item = SheetPoint>) -> Option<Frame> {
        let point = spots.map(|spot| Frame {
            low: spot,
            high: spot,
        });
        point.reduce(Frame::join)
    }

    pub fn join(self, other: Frame) -> Frame {
        Frame {
            low: SheetPoint::new(self.low.x.min(other.low.x), self.low.y.min(other.low.y)),
            high: SheetPoint::new(self.high.x.max(other.high.x), self.high.y.max(other.high.y)),
        }
    }

    /// The part of the box inside another one.
    pub fn cut_to(self, other: Frame) -> Frame {
        Frame {
            low: SheetPoint::new(self.low.x.max(other.low.x), self.low.y.max(other.low.y)),
            high: SheetPoint::new(self.high.x.min(other.high.x), self.high.y.min(other.high.y)),
        }
    }

    pub fn wider(self, by: f64) -> Frame {
        Frame {
            low: self.low.along(SheetPoint::new(-by, -by), 1.0),
            high: self.high.along(SheetPoint::new(by, by), 1.0),
        }
    }

    /// A box of that width and height with the same middle.
    pub fn resized(self, width: f64, height: f64) -> Frame {
        let (middle, half) = (self.middle(), SheetPoint::new(width / 2.0, height / 2.0));
        Frame {
            low: middle.along(half, -1.0),
            high: middle.along(half, 1.0),
        }
    }

    /// Moved no farther than is needed to hold another box; not along an axis where that is the larger one.
    pub fn moved_to_hold(self, other: Frame) -> Frame {
        let by = |[low, high]: [f64; 2], [least, most]: [f64; 2]| match most - least > high - low {
            true => 0.0,
            false => (least - low).min(0.0) + (most - high).max(0.0),
        };
        let way = SheetPoint::new(
            by([self.low.x, self.high.x], [other.low.x, other.high.x]),
            by([self.low.y, self.high.y], [other.low.y, other.high.y]),
        );
        Frame {
            low: self.low.along(way, 1.0),
            high: self.high.along(way, 1.0),
        }
    }

    pub fn middle(self) -> SheetPoint {
        self.low.middle(self.high)
    }

    pub fn width(self) -> f64 {
        self.high.x - self.low.x
    }

    pub fn height(self) -> f64 {
        self.high.y - self.low.y
    }

    pub fn holds(self, spot: SheetPoint) -> bool {
        (self.low.x..=self.high.x).contains(&spot.x) && (self.low.y..=self.high.y).contains(&spot.y)
    }

    pub fn meets(self, other: Frame) -> bool {
        self.low.x < other.high.x
            && other.low.x < self.high.x
            && self.low.y < other.high.y
            && other.low.y < self.high.y
    }

    /// The part of a straight line between two places that lies in the box.
    pub fn part_of(self, from: SheetPoint, to: SheetPoint) -> Option<(SheetPoint, SheetPoint)> {
        let way = from.to(to);
        let (mut start, mut end) = (0.0_f64, 1.0_f64);
        for (at, step, low, high) in [
            (from.x, way.x, self.low.x, self.high.x),
            (from.y, way.y, self.low.y, self.high.y),
        ] {
            if step == 0.0 {
                if at < low || at > high {
                    return None;
                }
                continue;
            }
            let (one, other) = ((low - at) / step, (high - at) / step);
            start = start.max(one.min(other));
            end = end.min(one.max(other));
        }
        (start < end).then(|| (from.along(way, start), from.along(way, end)))
    }
}
