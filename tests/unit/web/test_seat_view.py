"""What a taster's device gets, field by field: a new field is hidden until it is listed here too."""

from pydantic import BaseModel

from cupwright.web import seat_view, shown, shown_sheets

EVERYTHING = {
    "SeatView": {"now_ms", "table", "seat", "notes", "sequence", "words"},
    "SeatTable": {
        *(
            "id",
            "name",
            "step",
            "blinding",
            "places",
            "flights",
            "bowls",
            "sheet",
            "commitment",
            "clock",
            "cues",
        ),
    },
    "SeatShown": {"id", "name", "order"},
    "NoteShown": {"id", "place", "part", "field", "value", "stamp", "written_at"},
    "SeatWordsShown": {"own", "corrections"},
    "OwnWordRead": {"concept", "label", "parents", "forms"},
    "CorrectionShown": {"id", "surface", "concept", "stamp", "written_at"},
    "KeptCorrectionsShown": {"kept"},
    "StampShown": {"counter", "device"},
    "TakenShown": {"token", "seat", "table"},
    "KeptShown": {"kept", "sequence"},
}
SHARED = {
    "BowlShown": {"place", "number"},
    "ClockShown": {"started_at", "pours", "done"},
    "CueShown": {
        *("kind", "bowl", "place", "number", "due", "earliest", "latest", "ends", "person", "done"),
    },
}
OF_SHEETS = {
    "SheetShown": {"name", "version", "title", "passes", "liking", "points"},
    "PassShown": {"id", "title", "ask", "moment", "caution", "over", "fields"},
}


def own_models() -> dict[str, set[str]]:
    return {
        name: set(model.model_fields)
        for name, model in vars(seat_view).items()
        if isinstance(model, type) and issubclass(model, BaseModel) and model.__module__ == seat_view.__name__
    }


def test_a_taster_gets_these_fields_and_no_others():
    assert own_models() == EVERYTHING
    for name, fields in SHARED.items():
        assert set(getattr(shown, name).model_fields) == fields
    for name, fields in OF_SHEETS.items():
        assert set(getattr(shown_sheets, name).model_fields) == fields
