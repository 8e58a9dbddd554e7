"""The exporters that `jupyter nbconvert --to plankit_html` (or `_pdf`, `_json`) finds by entry point."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from nbconvert.exporters.exporter import Exporter
from nbconvert.exporters.templateexporter import TemplateExporter
from nbconvert.utils.exceptions import ConversionException
from traitlets import default

from plankit.errors import PlanError
from plankit.publish import fonts
from plankit.publish.characters import printable
from plankit.publish.document import Document, find_document, refuse_unfinished
from plankit.publish.kernel import PlanExecutePreprocessor
from plankit.publish.notebook import Notebook
from plankit.publish.page import Medium, Page, page_of
from plankit.publish.pictures import take_along
from plankit.publish.structured import as_script
from plankit.publish.templates import NAME, folders

NOWHERE: dict[str, Any] = {"home": "", "links": (), "head_links": (), "figures": ""}
"""What stands round a page that belongs to no site."""


class NoPlanError(PlanError, ConversionException):
    """A notebook that cannot be made into a plan, said so that nbconvert passes it on."""


class _OfPlans(Exporter):
    """What the exporters share: values in prose are evaluated when a notebook is executed on the way."""

    @default("preprocessors")
    def _preprocessors(self) -> list[Any]:
        return []

    @default("default_preprocessors")
    def _default_preprocessors(self) -> list[Any]:
        return [PlanExecutePreprocessor]


def _checked(notebook: Notebook) -> Document:
    try:
        document = find_document(notebook)
        refuse_unfinished(document)
    except PlanError as error:
        raise NoPlanError(error.what, where=error.where, given=error.given, remedy=error.remedy) from error
    return document


class PlanHTMLExporter(_OfPlans, TemplateExporter):
    """Makes a plan's page: one HTML file that stands alone."""

    export_from_notebook = "Plan page (plankit)"
    output_mimetype = "text/html"
    medium: Medium = "screen"

    @default("file_extension")
    def _extension(self) -> str:
        return ".html"

    @default("template_name")
    def _name(self) -> str:
        return NAME

    @default("template_extension")
    def _template_extension(self) -> str:
        return ".html.j2"

    @default("extra_template_basedirs")
    def _places(self) -> list[str]:
        return [str(folder) for folder in folders()]

    def _create_environment(self) -> Any:
        environment: Any = super()._create_environment()  # type: ignore[no-untyped-call]
        environment.autoescape = True
        environment.trim_blocks = environment.lstrip_blocks = True
        return environment

    def from_notebook_node(
        self, nb: Notebook, resources: dict[str, Any] | None = None, **kw: Any
    ) -> tuple[Any, dict[str, Any]]:
        """Return the page of a notebook that has run (or is run on the way, where execution is on).

        raises  NoPlanError where the notebook holds no plan
        """
        done, resources = self._done(nb, resources, **kw)
        return self.page(done, NOWHERE), resources

    def _done(
        self, nb: Notebook, resources: dict[str, Any] | None, **kw: Any
    ) -> tuple[Notebook, dict[str, Any]]:
        done, resources = Exporter.from_notebook_node(self, nb, resources, **kw)
        take_along(done, Path(resources.get("metadata", {}).get("path", "") or "."))
        return done, resources

    def page(self, notebook: Notebook, around: Mapping[str, Any] | None = None) -> str:
        """Return the page of a notebook that has run.

        around  where the page stands: `home`, `links` at its foot, `head_links`, the folder `figures` beside it
        """
        _checked(notebook)
        return self.fill(page_of(notebook, self.medium), around or NOWHERE)

    def fill(self, page: Page, around: Mapping[str, Any]) -> str:
        """Return the HTML of everything a page says."""
        text: str = self.template.render(
            page=page,
            around=around,
            medium=self.medium,
            structured=as_script(page.structured),
            faces=fonts.page_faces() if self.medium == "screen" else fonts.print_faces(),
        )
        return _without_blank_lines(printable(text))


def _without_blank_lines(text: str) -> str:
    return "\n".join(line for line in text.splitlines() if line.strip()) + "\n"


class PlanPDFExporter(PlanHTMLExporter):
    """Makes a plan's PDF: tagged, on letter or A4 paper, readable in black and white."""

    export_from_notebook = "Plan PDF (plankit)"
    output_mimetype = "application/pdf"
    medium: Medium = "print"

    @default("file_extension")
    def _extension(self) -> str:
        return ".pdf"

    @default("template_file")
    def _file(self) -> str:
        return "print.html.j2"

    def from_notebook_node(
        self, nb: Notebook, resources: dict[str, Any] | None = None, **kw: Any
    ) -> tuple[Any, dict[str, Any]]:
        """Return the PDF of a notebook that has run (or is run on the way, where execution is on)."""
        done, resources = self._done(nb, resources, **kw)
        resources["output_extension"] = ".pdf"
        return self.pdf(done), resources

    def pdf(self, notebook: Notebook) -> bytes:
        """Return the PDF of a notebook that has run."""
        from plankit.publish.pdf import to_pdf

        document = _checked(notebook)
        page = page_of(notebook, self.medium)
        return to_pdf(self.fill(page, NOWHERE), document, dict(page.sections))


class PlanJSONExporter(_OfPlans):
    """Writes the plan document itself."""

    export_from_notebook = "Plan data (plankit)"
    output_mimetype = "application/json"

    @default("file_extension")
    def _extension(self) -> str:
        return ".json"

    def from_notebook_node(
        self, nb: Notebook, resources: dict[str, Any] | None = None, **kw: Any
    ) -> tuple[Any, dict[str, Any]]:
        """Return the plan document of a notebook as JSON."""
        done, resources = super().from_notebook_node(nb, resources, **kw)
        from plankit.publish.making import as_json

        return as_json(_checked(done)), resources
