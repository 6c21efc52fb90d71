"""The addresses of the page. What a browser names is looked up on the shelf, never opened as a path."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

import msgspec
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response, StreamingResponse
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from notesgen.errors import InputError
from notesgen.pack.layout.page.script import engine_module
from notesgen.review import making, sounds
from notesgen.review.acts import Sent
from notesgen.review.door import Door, Key
from notesgen.review.headers import Careful
from notesgen.review.room import Open, Room
from notesgen.review.shelf import LARGEST
from notesgen.review.shelved import entries
from notesgen.review.spoken import spoken
from notesgen.review.uploads import body

STATIC = Path(__file__).resolve().parent / "static"
LONGEST_ACT = 256 * 1024  # bytes; a passage of a thousand notes has about 10 KB
NARROWEST, WIDEST = 150.0, 2000.0  # points


def app(room: Room, key: Key) -> ASGIApp:
    """The whole page of a room, behind its door."""
    routes = [
        Route("/", _shelf_page),
        Route("/lesson/{name}", _lesson_page),
        Route("/api/shelf", _shelf),
        Route("/api/shelf", _added, methods=["POST"]),
        Route("/api/lesson/{name}", _proof),
        Route("/api/lesson/{name}/words", _words),
        Route("/api/lesson/{name}/choices", _choices),
        Route("/api/lesson/{name}/sounds", _sounds),
        Route("/api/lesson/{name}/news", _news),
        Route("/api/lesson/{name}/act", _act, methods=["POST"]),
        Route("/api/lesson/{name}/pack", _pack, methods=["POST"]),
        Route("/recording/{name}", _recording),
        Route("/pack/{name}/{file}", _pack_file),
        Route("/engine.js", _engine),
        Mount("/static", StaticFiles(directory=STATIC)),
    ]
    handlers = {InputError: _input_error, HTTPException: _http_error, Exception: _fault}
    inner = Starlette(routes=routes, exception_handlers=handlers)
    inner.state.room = room
    return Careful(Door(inner, key))


async def _shelf_page(request: Request) -> Response:
    return FileResponse(STATIC / "shelf.html")


async def _lesson_page(request: Request) -> Response:
    _captions(request)
    return FileResponse(STATIC / "lesson.html")


async def _engine(request: Request) -> Response:
    return Response(engine_module(), media_type="text/javascript")


async def _shelf(request: Request) -> Response:
    room = _room(request)
    return _json({"folder": str(room.shelf.folder), "lessons": entries(room)})


async def _added(request: Request) -> Response:
    data = await body(request, LARGEST)
    path = _room(request).shelf.add(request.query_params.get("name", ""), data)
    return _json({"name": path.name})


async def _proof(request: Request) -> Response:
    since, width = _whole(request, "since", -1), _width(request)
    lesson = await _open(request)

    return _json(await lesson.do(lambda desk: (desk.look(), desk.proof(since, width))[1]))


async def _words(request: Request) -> Response:
    captions = _captions(request)
    recording = _room(request).shelf.recording_of(captions)
    desk = (await _open(request)).desk
    url = f"/recording/{quote(captions.name, safe='')}"
    return _json(spoken(desk.transcript, recording, url))


async def _choices(request: Request) -> Response:
    query, revision, width = _query(request), _whole(request, "revision", 0), _width(request)
    lesson = await _open(request)
    return _json(await lesson.do(lambda desk: desk.choices(query, revision, width)))


async def _sounds(request: Request) -> Response:
    wanted = sounds.Wanted(
        revision=_whole(request, "revision", 0),
        phrase=request.query_params.get("phrase", ""),
        query=request.query_params.get("query", ""),
        option=_whole(request, "option", 0),
    )
    lesson = await _open(request)
    return _json(await lesson.do(lambda desk: sounds.sound(desk, wanted)))


async def _news(request: Request) -> Response:
    lesson = await _open(request)
    revision = await lesson.do(lambda desk: desk.look())
    return StreamingResponse(lesson.bell.heard(revision), media_type="text/event-stream")


async def _act(request: Request) -> Response:
    try:
        sent = msgspec.json.decode(await body(request, LONGEST_ACT), type=Sent)
    except msgspec.DecodeError as error:
        raise HTTPException(400, f"This is no act: {error}.") from error
    if not NARROWEST <= sent.width <= WIDEST:
        raise HTTPException(400, "This is no width.")
    lesson = await _open(request)
    return _json(await lesson.do(lambda desk: desk.act(sent)))


async def _pack(request: Request) -> Response:
    lesson = await _open(request)
    return _json(await lesson.do(making.make))


async def _recording(request: Request) -> Response:
    recording = _room(request).shelf.recording_of(_captions(request))
    if recording is None or not recording.path.is_file():
        raise HTTPException(404, "The recording is not there any more.")
    return FileResponse(recording.path, media_type=recording.type)


async def _pack_file(request: Request) -> Response:
    _captions(request)
    return making.served((await _open(request)).desk.folder, request.path_params["file"])


def _room(request: Request) -> Room:
    room: Room = request.app.state.room
    return room


def _captions(request: Request) -> Path:
    captions = _room(request).shelf.captions(request.path_params["name"])
    if captions is None:
        raise HTTPException(404, "There is no such lesson in the folder.")
    return captions


async def _open(request: Request) -> Open:
    return await _room(request).open(_captions(request))


def _query(request: Request) -> str:
    return request.query_params.get("query", "")


def _whole(request: Request, name: str, default: int) -> int:
    typed = request.query_params.get(name, str(default))
    try:
        return int(typed[:9])
    except ValueError:
        raise HTTPException(400, f"{name} should be a whole number.") from None


def _width(request: Request) -> float:
    try:
        width = float(request.query_params.get("width", "600"))
    except ValueError:
        width = 0.0
    if not NARROWEST <= width <= WIDEST:
        raise HTTPException(400, "This is no width.")
    return width


def _json(value: object) -> Response:
    return Response(msgspec.json.encode(value), media_type="application/json")


async def _input_error(request: Request, error: Exception) -> Response:
    return JSONResponse({"message": str(error)}, 422)


async def _http_error(request: Request, error: Exception) -> Response:
    told = error if isinstance(error, HTTPException) else HTTPException(500)
    return JSONResponse({"message": told.detail}, told.status_code)


async def _fault(request: Request, error: Exception) -> Response:
    told = f"Something went wrong in notesgen ({type(error).__name__}). All that you answered is kept."
    return JSONResponse({"message": told}, 500)
