//! Three views to scale.

use crate::boxview;
use crate::layout::content_area;
use crate::pack::Page;
use crate::paper::Paper;
use studies::carpentry::Carpentry;

pub(super) fn page(carpentry: &Carpentry, paper: Paper) -> Page {
    let views = boxview::views(carpentry, content_area(paper));
    let mut page = Page {
        scale: views.scale,
        ..Page::new("Views", views.drawing)
    };
    page = page.noted(
        "Dimensions in mm. Figures at the end of a jogged line are distances from the left or \
         lower edge of the block; in the section, from its front. Numbers in rings are those \
         of the sheet Box. Hatched: wood that is cut through.",
    );
    if !views.numbered {
        page =
            page.noted("Parts without a number here lie under others or close to them: see Box.");
    }
    if !views.measured {
        page = page.noted("Some positions found no room here: they stand on the panels' sheets.");
    }
    page
}
