"""The year in review as a document: what it is called, and who paints its pages."""

from functools import partial

from lawnbook.plan.year_review_model import YearReview
from lawnbook.reading import tr
from lawnbook.sheet.layout import PaperName
from lawnbook.sheet.paper import Draw
from lawnbook.sheet.review_page import draw_review, lay_review
from lawnbook.yard.notebook import Notebook


def review_title(review: YearReview) -> str:
    """What the year in review is called, as a document."""
    return tr("{yard}: year in review, {label}", yard=review.yard, label=review.span.label)


def review_document(
    _notebook: Notebook, review: YearReview, paper: PaperName
) -> tuple[str, tuple[Draw, ...]]:
    """Title and pages of a year in review; all that is on them is in the review."""
    pages = lay_review(review, paper)
    return review_title(review), tuple(
        partial(draw_review, review=review, pages=pages, number=number, paper=paper)
        for number in range(len(pages))
    )
