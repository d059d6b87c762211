# SPDX-License-Identifier: GPL-3.0-or-later
"""A served page and plain sockets to it, for tests that stand in for a hostile client."""
import http.client
import json
import re
import signal
import socket
import subprocess
import time
import urllib.parse

HEADS = ('Content-Security-Policy', 'X-Content-Type-Options', 'Referrer-Policy', 'Cache-Control')


class Served:
    """A program that prints where it serves, and is ended as by Ctrl-C."""

    def __init__(self, *command, **how):
        self.program = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, stdin=subprocess.DEVNULL, text=True, **how)
        self.address = self.program.stdout.readline().strip()
        where = re.fullmatch(r'http://127\.0\.0\.1:(\d+)/([0-9a-f]{40})/', self.address)
        assert where, f'this is no address: {self.address!r}'
        self.port, self.key = int(where[1]), where[2]
        self.host = f'127.0.0.1:{self.port}'

    def __enter__(self):
        return self

    def __exit__(self, kind, *_):
        if kind is not None:
            self.program.kill()
        status = self.end()
        assert kind is not None or status == 0, f'it ended with {status}'

    def end(self, how=signal.SIGINT):
        if self.program.poll() is None:
            self.program.send_signal(how)
        status = self.program.wait(10)
        self.said = self.program.stderr.read() if not self.program.stderr.closed else self.said
        self.program.stdout.close()
        self.program.stderr.close()
        return status

    def raw(self, data=b''):
        """A socket to it, with something sent."""
        there = socket.create_connection(('127.0.0.1', self.port), timeout=10)
        there.sendall(data)
        return there

    def head(self, method='GET', path='', fields=()):
        """The head of a request, right but for what is given; a field of None is left out."""
        given = {'Host': self.host, 'Content-Length': '0' if method == 'POST' else None}
        if method == 'POST':
            given |= {'Origin': f'http://{self.host}', 'Content-Type': 'application/json'}
        given |= dict(fields)
        lines = [f'{name}: {value}' for name, value in given.items() if value is not None]
        path = path if path.startswith('/') else f'/{self.key}/{path}'
        return '\r\n'.join([f'{method} {path} HTTP/1.1', *lines, '', '']).encode('latin-1')

    def ask(self, head, body=b''):
        """Status, fields and body of the reply to a request over a connection of its own."""
        with self.raw() as there:
            try:
                there.sendall(head + body)
            except (BrokenPipeError, ConnectionResetError):
                pass  # it may have answered all the same
            return reply(there)

    def post(self, path, what):
        body = json.dumps(what).encode()
        status, fields, text = self.ask(self.head('POST', path, {'Content-Length': len(body)}), body)
        return status, json.loads(text) if fields.get('Content-Type') == 'application/json' else text

    def get(self, path=''):
        status, fields, text = self.ask(self.head('GET', path))
        return status, json.loads(text) if fields.get('Content-Type') == 'application/json' else text


def reply(there):
    response = http.client.HTTPResponse(there)
    response.begin()
    return response.status, response.headers, response.read()


def is_closed(there, within):
    """Whether the other end closes a connection without a word within so many seconds."""
    there.settimeout(within)
    try:
        return there.recv(1) == b''
    except ConnectionResetError:
        return True
    except TimeoutError:
        return False


def seconds(what):
    begun = time.monotonic()
    what()
    return time.monotonic() - begun
