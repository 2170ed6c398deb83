//! What was drawn on: from the skin to the picture and back, and the picture itself.

use super::frame::Frame;
use crate::care::territory::Ground;
use crate::plane::{Extent, Rectified, Spot, Unscaled, rectify};
use crate::protocol::{card, face::View};
use crate::ui::parts::FaceLines;
use crate::ui::photo::Fetched;
use leptos::prelude::*;
use std::sync::Arc;

/// The way between the skin, laid flat at the patient's size, and a picture of it.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture {
    /// The drawing of a face, enlarged by so much. Its units are hundredths of a millimetre of the
    /// standard face.
    Face {
        /// Which.
        view: View,
        /// The patient's length over the standard one.
        enlarged: f64,
    },
    /// A photo. Its units are pixels.
    Photo {
        /// Its size.
        extent: Extent,
        /// How it was measured.
        rectified: Arc<Rectified>,
    },
}

impl Picture {
    /// The picture of a ground.
    ///
    /// # Errors
    /// [`Unscaled`] when the photo's scale cannot be right.
    pub fn of(ground: &Ground) -> Result<Self, Unscaled> {
        match ground {
            Ground::Drawing { view, measured } => {
                let standard = view.measure().length;
                let measured = measured.unwrap_or(standard);
                #[expect(clippy::cast_precision_loss, reason = "lengths on a face")]
                let enlarged = measured.raw() as f64 / standard.raw().max(1) as f64;
                Ok(Self::Face { view: *view, enlarged })
            }
            Ground::Photo { photo, scale } => {
                let rectified = rectify(scale, photo.extent, card::ID_1, &card::LIMITS)?;
                Ok(Self::Photo { extent: photo.extent, rectified: Arc::new(rectified) })
            }
        }
    }

    /// Where a place on the skin lies in the picture.
    pub fn show(&self, spot: Spot) -> Option<(f64, f64)> {
        match self {
            Self::Face { enlarged, .. } => {
                let whole = |hundredths: i32| f64::from(hundredths) / enlarged;
                Some((whole(spot.x), whole(spot.y)))
            }
            Self::Photo { rectified, .. } => rectified.to_photo(spot),
        }
    }

    /// Which place on the skin a place in the picture is.
    pub fn read(&self, (x, y): (f64, f64)) -> Option<Spot> {
        match self {
            Self::Face { enlarged, .. } => {
                let mm = |units: f64| units * enlarged / f64::from(Spot::PER_MM);
                Spot::from_mm(mm(x), mm(y))
            }
            Self::Photo { rectified, .. } => rectified.to_skin(x, y),
        }
    }

    /// All of it.
    pub fn whole(&self) -> Frame {
        match self {
            Self::Face { view, .. } => {
                let (low, high) = view.bounds();
                Frame {
                    left: f64::from(low.x),
                    top: f64::from(low.y),
                    width: f64::from(high.x - low.x),
                    height: f64::from(high.y - low.y),
                }
            }
            Self::Photo { extent, .. } => Frame {
                left: 0.0,
                top: 0.0,
                width: f64::from(extent.width),
                height: f64::from(extent.height),
            },
        }
    }
}

/// The picture under everything, in its own units.
#[component]
pub fn Backdrop(
    /// Which.
    picture: Picture,
    /// The photo, once it is there.
    #[prop(into)]
    photo: Signal<Fetched>,
) -> impl IntoView {
    match picture {
        Picture::Face { view, .. } => view! { <FaceLines view /> }.into_any(),
        Picture::Photo { extent, .. } => view! {
            <image
                class="photo"
                href=move || match photo.get() {
                    Fetched::Here(url) => Some(url.as_str().to_owned()),
                    Fetched::Waiting | Fetched::Gone => None,
                }
                width=extent.width
                height=extent.height
            />
        }
        .into_any(),
    }
}
