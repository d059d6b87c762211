# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: hostile.py QUICK: QUICK serves with little patience and little room. A client that means no good, and one that
it must not keep from its answers."""
import concurrent.futures
import socket
import sys
import threading
import time

from server import HEADS, Served, is_closed, reply, seconds

quick = sys.argv[1]


def answered_quickly(served):
    """A GET is answered within a second, whatever else goes on."""
    took = seconds(lambda: check(served.get('ping'), (200, b'GET ping ')))
    assert took < 1, f'a GET took {took:.3f} s'


def check(found, wanted):
    assert found == wanted, f'{found!r}, not {wanted!r}'


def refused(served, status, head, body=b''):
    got, fields, text = served.ask(head, body)
    assert got == status, f'{got}, not {status}, to {head!r}'
    for name in HEADS:
        assert name in fields, f'{name} is missing from a reply of {status} to {head!r}'
    return text


def heads_that_are_wrong(served):
    host = served.host
    wrong_key = 'b' * 40
    for wrong in ('evil.invalid', f'evil.invalid:{served.port}', '127.0.0.1', f'127.0.0.1:{served.port + 1}', f'{host}.', '', f'{host}, {host}'):
        refused(served, 403, served.head(fields={'Host': wrong}))
    refused(served, 403, served.head(fields={'Host': None}))
    refused(served, 403, served.head(fields={'Host': host, 'host': host}))
    refused(served, 403, served.head(fields={'Host': host, 'HOST': 'evil.invalid'}))
    check(served.ask(served.head(path='ping', fields={'Host': f'localhost:{served.port}'}))[0], 200)
    for origin in ('http://evil.invalid', f'https://{host}', 'null', '', f'http://localhost:{served.port}', f'http://{host}/'):
        refused(served, 403, served.head('GET', 'ping', {'Origin': origin}))
        refused(served, 403, served.head('POST', 'ping', {'Origin': origin}))
    refused(served, 403, served.head('POST', 'ping', {'Origin': None}))
    refused(served, 403, served.head('POST', 'ping', {'origin': 'http://evil.invalid'}))
    check(served.ask(served.head('GET', 'ping', {'Origin': f'http://{host}'}))[0], 200)
    for kind in (None, '', 'text/plain', 'application/jsonp', 'application/x-www-form-urlencoded', 'multipart/form-data'):
        refused(served, 415, served.head('POST', 'ping', {'Content-Type': kind}))
    refused(served, 415, served.head('POST', 'ping', {'content-type': 'text/plain'}))
    for method in ('PUT', 'DELETE', 'OPTIONS', 'PATCH', 'TRACE', 'get', 'BREW'):
        refused(served, 405, served.head(method, 'ping'))
    said = {refused(served, 404, served.head('GET', path)) for path in (
        '/', '//', f'/{wrong_key}/', f'/{served.key[:-1]}b/ping', f'/{served.key[:-1]}/', f'/{served.key}a/', '/favicon.ico', f'/{served.key}?x=1', '/%61')}
    check(len(said), 1)
    check(refused(served, 404, served.head('POST', f'/{wrong_key}/plan')), said.pop())


def paths_that_are_wrong(served):
    for path in ('..', '../x', 'a/../b', f'/../{served.key}/', 'ping\0', '\0ping', 'pi\0ng', 'ping..'):
        refused(served, 400, served.head('GET', path))
    check(served.get('%2e%2e/x')[1], b'GET %2e%2e/x ')  # nothing is resolved


def what_is_no_request(served):
    for noise in (b'\0' * 2000, b'\r\n' * 500, b'GET\r\n\r\n', b'GET / HTTP/9.9\r\n\r\n', b'\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03' * 9,
                  b'GET / HTTP/1.1\r\n' + b'X: y\r\n' * 9000 + b'\r\n', b'GET /' + b'a' * 100000 + b' HTTP/1.1\r\n\r\n', b'POST / HTTP/1.1\r\nContent-Length: -5\r\n\r\n'):
        with served.raw() as there:
            try:
                there.sendall(noise)
                there.shutdown(socket.SHUT_WR)
                there.settimeout(3)
                while there.recv(65536):
                    pass
            except OSError:  # it was closed while noise was made
                pass
    answered_quickly(served)


def lengths_that_are_wrong(served):
    refused(served, 411, served.head('POST', 'ping', {'Content-Length': None, 'Transfer-Encoding': 'chunked'}), b'1\r\nx\r\n0\r\n\r\n')
    for length in ('4, 4', '-1', '0x10', '99999999999999999999999'):
        with served.raw(served.head('POST', 'ping', {'Content-Length': length}) + b'abcd') as there:
            there.shutdown(socket.SHUT_WR)
            assert reply(there)[0] >= 400
    double = served.head('POST', 'ping', {'Content-Length': 4, 'content-length': 8})
    with served.raw(double + b'abcdefgh') as there:
        assert reply(there)[0] in (400, 411)


def bodies_that_are_wrong(served):
    check(served.ask(served.head('POST', 'ping', {'Content-Length': 100000}), b'x' * 100000)[2], b'POST ping ' + b'x' * 100000)
    refused(served, 413, served.head('POST', 'ping', {'Content-Length': 100001}), b'x' * 100001)  # all of it is drained
    refused(served, 413, served.head('POST', 'ping', {'Content-Length': 400000}), b'x' * 400000)
    refused(served, 413, served.head('POST', 'ping', {'Content-Length': 10 ** 12}))  # nothing of it is
    refused(served, 404, served.head('POST', '/no-key/ping', {'Content-Length': 300000}), b'x' * 300000)
    # Cut off: closed without an answer, and the server goes on.
    with served.raw(served.head('POST', 'ping', {'Content-Length': 1000}) + b'x' * 999) as there:
        there.shutdown(socket.SHUT_WR)
        assert is_closed(there, 3)
    # Trickled: the whole of it has its time, however often something comes.
    with served.raw(served.head('POST', 'ping', {'Content-Length': 1000})) as there:
        assert trickled_until_closed(there, 4) > 0.9
    answered_quickly(served)


def trickled_until_closed(there, at_most, bytes_sent=b'x'):
    begun = time.monotonic()
    there.settimeout(0.05)
    while time.monotonic() - begun < at_most:
        try:
            there.sendall(bytes_sent)
            if there.recv(1) == b'':
                return time.monotonic() - begun
        except TimeoutError:
            pass
        except (BrokenPipeError, ConnectionResetError):
            return time.monotonic() - begun
    raise AssertionError(f'not closed within {at_most} s')


def heads_that_are_trickled(served):
    with served.raw(b'GET ') as slow:
        others = [served.raw(served.head()[:-2]) for _ in range(20)]
        assert 0.4 < trickled_until_closed(slow, 3) < 2
        assert all(is_closed(other, 2) for other in others)
    # Half-open connections, which never say a word.
    silent = [served.raw() for _ in range(20)]
    answered_quickly(served)
    assert all(is_closed(other, 2) for other in silent)
    # A connection is kept for the next request, for longer than a head may take but not for ever; that next head has
    # its time too.
    with served.raw(served.head(path='ping')) as kept:
        check(reply(kept)[0], 200)
        time.sleep(1)
        kept.sendall(served.head(path='ping'))
        check(reply(kept)[0], 200)
        assert not is_closed(kept, 1)
        assert is_closed(kept, 3)
    with served.raw(served.head(path='ping')) as kept:
        check(reply(kept)[0], 200)
        kept.sendall(served.head(path='ping')[:-2])
        assert trickled_until_closed(kept, 3, b'X: y\r\n') < 2
    with served.raw(served.head(path='ping', fields={'Host': 'evil.invalid'})) as not_kept:
        check(reply(not_kept)[0], 403)
        assert is_closed(not_kept, 0.5)


def a_full_house(served):
    """With room for 40, the one goes that has been silent the longest, and whoever comes is answered."""
    first = served.raw(b'GET /')
    time.sleep(0.1)
    rest = [served.raw(b'GET /') for _ in range(39)]
    time.sleep(0.1)
    for there in rest:
        there.sendall(b'x')
    answered_quickly(served)
    assert is_closed(first, 0.2), 'the longest silent is still there'
    for there in rest:
        there.close()


def a_thousand_at_once(served):
    connections = []
    for _ in range(1000):
        connections.append(served.raw(b'GET /a'))
        if len(connections) % 250 == 0:
            answered_quickly(served)
    for there in connections:
        there.close()
    answered_quickly(served)


def answers_that_fail(served):
    for path, says in (('no-memory', b'out of memory\n'), ('fault', b'stopped by a fault of its own; please report the job\n'),
                       ('nothing-of-the-kind', b'stopped by a fault of its own; please report the job\n')):
        check(refused(served, 500, served.head('POST', path)), says)
    answered_quickly(served)


def slow_answers(served):
    """Two workers answer four slow requests in two seconds; that is all that they keep waiting. Who goes away before
    the answer is of no account."""
    with concurrent.futures.ThreadPoolExecutor() as pool:
        begun = time.monotonic()
        slow = [pool.submit(served.get, 'slow') for _ in range(3)]
        served.raw(served.head(path='slow')).close()
        time.sleep(0.1)
        took = seconds(lambda: refused(served, 404, served.head('GET', '/')))
        assert took < 1, f'while workers were busy a refusal took {took:.3f} s'
        for each in slow:
            check(each.result(), (200, b'GET slow '))
        assert 1.5 < time.monotonic() - begun < 3.5
    # One that takes its answer slowly keeps nobody waiting either.
    with served.raw(served.head(path='much')) as lazy:
        time.sleep(0.2)
        answered_quickly(served)
        check(len(reply(lazy)[2]), 20_000_000)


def many_at_once(served):
    """A hundred clients get each its own answer."""
    def ask(number):
        for i in range(5):
            body = f'{number} {i}'.encode() * 100
            for attempt in range(20):
                try:
                    got = served.ask(served.head('POST', 'ping', {'Content-Length': len(body)}), body)[2]
                    break
                except (OSError, http_cut_off):
                    time.sleep(0.02)  # there is room for 40
            check(got, b'POST ping ' + body)
    import http.client
    http_cut_off = http.client.HTTPException
    threads = [threading.Thread(target=ask, args=(n,)) for n in range(100)]
    failed = []
    threading.excepthook = lambda told: failed.append(told.exc_value)
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not failed, failed[0]


def ended_while_it_answers(served):
    """What is being answered is answered."""
    with served.raw(served.head(path='slow')) as slow:
        time.sleep(0.2)
        check(served.end(), 0)
        check(reply(slow)[0], 200)


with Served(quick) as served:
    for attempt in (heads_that_are_wrong, paths_that_are_wrong, what_is_no_request, lengths_that_are_wrong, bodies_that_are_wrong,
                    heads_that_are_trickled, a_full_house, a_thousand_at_once, answers_that_fail, slow_answers, many_at_once,
                    ended_while_it_answers):
        print(f'{attempt.__name__}: {seconds(lambda: attempt(served)):.2f} s', flush=True)
