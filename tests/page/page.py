# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: page.py PROGRAM PROJECT [PLANS]: the page as the real program serves it: its command, its answers, its file.

With a number of plans only that is tried: so many take no more memory than some do.
"""
import hashlib
import json
import os
import pathlib
import resource
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time

from server import HEADS, Served, seconds

program, project = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2])
only_plans = int(sys.argv[3]) if len(sys.argv) > 3 else None
smock = (project / 'docs/examples/porters-smock.json').read_text()

without_pieces = """{
  "title": "Porter's cuff", "unit": "cm", "fabric": { "weight": "150 g/m2", "width": "150 cm" },
  "lengths": { "cuff": 22, "sleeve": 46 }, "joins": [ { "name": "sleeve into cuff", "long": "sleeve", "band": "cuff" } ]
}"""


def check(found, wanted):
    assert found == wanted, f'{found!r}, not {wanted!r}'


def digest(text):
    return hashlib.sha256(text.encode()).hexdigest()


def serve(*words, **how):
    return Served(program, 'page', *words, '--open', 'never', **how)


def refusal(*words, **how):
    """Status and standard error of a page that is not served."""
    ended = subprocess.run([program, 'page', *words], capture_output=True, text=True, timeout=10, stdin=subprocess.DEVNULL, **how)
    check(ended.stdout, '')
    check(ended.stderr.count('\n'), 1)
    return ended.returncode, ended.stderr


def what_keeps_it_from_being_served(folder):
    (folder / 'a-folder').mkdir()
    check(refusal(str(folder / 'a-folder')), (3, f'gatherwright: {folder}/a-folder cannot be read: it is no file\n'))
    os.mkfifo(folder / 'a-pipe')
    check(refusal(str(folder / 'a-pipe'))[0], 3)
    (folder / 'bytes.json').write_bytes(b'{ "title": "\xff" }')
    check(refusal(str(folder / 'bytes.json'))[0], 2)
    check(refusal('-')[0], 2)
    for wrong in ('65536', '-1', 'x', '', '80.0', '0x50'):
        check(refusal('--port', wrong)[0], 2)
    check(refusal('--open', 'sometimes')[0], 2)
    with socket.socket() as taken:
        taken.bind(('127.0.0.1', 0))
        taken.listen()
        port = taken.getsockname()[1]
        check(refusal('--port', str(port)), (3, f'gatherwright: port {port} cannot be had: Address already in use\n'))
    with serve('--port', str(port)) as served:
        check(served.port, port)


def how_it_ends(folder):
    for how in (signal.SIGINT, signal.SIGTERM):
        served = serve()
        check(served.end(how), 0)
        check(served.said, '')


def what_a_page_is_made_of(folder):
    with serve() as served:
        for path, kind in (('', 'text/html; charset=utf-8'), ('index.html', 'text/html; charset=utf-8')):
            status, fields, text = served.ask(served.head(path=path))
            check((status, fields['Content-Type']), (200, kind))
            check(text.decode(), (project / 'cli/page/assets/index.html').read_text())
            for name in HEADS:
                check(len(fields.get_all(name)), 1)
            assert "default-src 'none'" in fields['Content-Security-Policy']
        for file in sorted((project / 'cli/page/assets').iterdir()):
            check(served.ask(served.head(path=file.name))[2], file.read_bytes())
        check(served.get('nothing')[0], 404)
        check(served.get('plan')[0], 405)
        check(served.post('job', {})[0], 405)
        check(served.post('nothing', {})[0], 404)
        names = [start['name'] for start in served.get('starts')[1]]
        listed = subprocess.run([program, 'start'], capture_output=True, text=True, check=True).stdout
        check(names, [line.split()[0] for line in listed.splitlines()[2:]])
        for start in served.get('starts')[1]:
            check(start['text'], subprocess.run([program, 'start', start['name']], capture_output=True, text=True, check=True).stdout)
        check(served.get('job')[1], {'name': None, 'text': '', 'read': None})
        check(served.get('alive')[1], {'read': None})


def a_job_that_is_saved(folder):
    file = folder / 'smock.json'
    file.write_text(smock)
    file.chmod(0o640)
    with serve(str(file)) as served:
        check(served.get('job')[1], {'name': 'smock.json', 'text': smock, 'read': digest(smock)})
        check(served.get('alive')[1], {'read': digest(smock)})
        one = smock + '// one\r\n'
        check(served.post('save', {'text': one, 'read': digest(smock)}), (200, {'read': digest(one), 'name': 'smock.json'}))
        check(file.read_bytes(), one.encode())
        check(file.stat().st_mode & 0o777, 0o640)
        # A second page began with what is no longer there.
        check(served.post('save', {'text': smock, 'read': digest(smock)}), (409, {'text': one, 'read': digest(one)}))
        check(file.read_bytes(), one.encode())
        # Changed by somebody else, to what is as long, at once.
        other = one.replace('one', 'two')
        file.write_bytes(other.encode())
        check(served.get('alive')[1], {'read': digest(other)})
        check(served.post('save', {'text': smock, 'read': digest(one)}), (409, {'text': other, 'read': digest(other)}))
        # Removed: it is told, and can be written anew.
        file.unlink()
        check(served.get('alive')[1], {'read': None})
        check(served.post('save', {'text': smock, 'read': digest(other)}), (409, {'text': None, 'read': None}))
        check(served.post('save', {'text': smock, 'read': None})[0], 200)
        check(file.read_text(), smock)
        # Where it cannot be written it is told why, and what was there stays.
        file.chmod(0o444)
        check(served.post('save', {'text': one, 'read': digest(smock)}), (500, b'smock.json cannot be written: Permission denied\n'))
        file.chmod(0o644)
        check(served.post('save', {'text': one, 'read': digest(smock)})[0], 200)
        # What is no UTF-8 any more can still be looked at.
        file.write_bytes(b'// \xff\n{}')
        check(served.get('job')[1]['text'], '// \ufffd\n{}')
        file.unlink()
        file.mkdir()
        check(served.get('job'), (500, b'smock.json cannot be read: it is no file\n'))
        check(served.get('alive')[0], 500)
        check(served.post('save', {'text': one, 'read': None})[0], 500)
        check([path.name for path in folder.iterdir()], ['smock.json'])
    file.rmdir()
    # A job that is not there yet.
    with serve(str(file)) as served:
        check(served.get('job')[1], {'name': 'smock.json', 'text': '', 'read': None})
        check(served.post('save', {'text': smock, 'read': None})[0], 200)
    # On a disk that takes no more.
    full = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
    with serve(str(file), preexec_fn=full) as served:
        status, said = served.post('save', {'text': smock + ' ', 'read': digest(smock)})
        check((status, said), (500, b'smock.json cannot be written: File too large\n'))
        check(file.read_text(), smock)
        check([path.name for path in folder.iterdir()], ['smock.json'])
    # Through a link, which stays one.
    (folder / 'link.json').symlink_to('smock.json')
    with serve(str(folder / 'link.json')) as served:
        check(served.get('job')[1]['name'], 'link.json')
        check(served.post('save', {'text': '{}', 'read': digest(smock)})[0], 200)
    assert (folder / 'link.json').is_symlink()
    check(file.read_text(), '{}')


def a_first_save(folder):
    (folder / 'there.json').write_text('mine')
    with serve(cwd=folder) as served:
        def first(name, text=smock):
            return served.post('save', {'text': text, 'read': None, 'name': name})
        for wrong in ('', ' ', '../up', 'a/b', '.hidden', 'a.json', 'a\0b', 'tab\t', 'x' * 65, 'a\u202eb', '\ufeffa', 'con:', '\u200b'):
            status, answer = first(wrong)
            check((status, answer['faults'][0]['pointer']), (200, '/name'))
        check(served.post('save', {'text': smock, 'read': None})[1]['faults'][0]['pointer'], '/name')
        status, answer = first('there')
        check((status, [fault['pointer'] for fault in answer['faults']]), (409, ['/name']))
        check((folder / 'there.json').read_text(), 'mine')
        assert 'mine' not in json.dumps(answer)
        check(sorted(path.name for path in folder.iterdir()), ['there.json'])
        status, answer = first("Kittel für den Chor_2-b")
        check((status, answer), (200, {'read': digest(smock), 'name': 'Kittel für den Chor_2-b.json'}))
        check((folder / 'Kittel für den Chor_2-b.json').read_text(), smock)
        check(served.get('job')[1], {'name': 'Kittel für den Chor_2-b.json', 'text': smock, 'read': digest(smock)})
        # Another page that had no job either meets with what is there now.
        check(first('another', 'other'), (409, {'text': smock, 'read': digest(smock)}))
        check(sorted(path.name for path in folder.iterdir()), ['Kittel für den Chor_2-b.json', 'there.json'])


def saves_at_once(folder):
    """Of several that began with the same, one is written; and a program that is ended meanwhile leaves a whole file."""
    import concurrent.futures
    file = folder / 'smock.json'
    texts = [f'// {n}\n' * 50000 for n in range(8)]
    with concurrent.futures.ThreadPoolExecutor() as pool:
        file.write_text(smock)
        with serve(str(file)) as served:
            got = list(pool.map(lambda text: served.post('save', {'text': text, 'read': digest(smock)})[0], texts))
            check(sorted(got), [200] + [409] * 7)
            check(file.read_text(), texts[got.index(200)])
        for how in (signal.SIGINT, signal.SIGTERM, signal.SIGKILL):
            file.write_text(smock)
            served = serve(str(file))
            text = '// x\n' * 400000
            saving = pool.submit(served.post, 'save', {'text': text, 'read': digest(smock)})
            time.sleep(0.02)
            served.end(how)
            saving.exception()
            assert file.read_text() in (smock, text)
            check([path.name for path in folder.iterdir() if not path.name.startswith('.gatherwright-')], ['smock.json'])


def answers_to_bodies(folder):
    with serve() as served:
        for body in (b'', b'x', b'[]', b'"text"', b'null', b'{', b'{"text"}', b'{"text": 5}', b'{}', b'\xff', b'{"text": "\xff"}', b'[' * 100000, b'{"a":' * 5000,
                     b'{"text": "{}", "have": []}'):
            for path in ('plan', 'change', 'save', 'strips', 'sheet', 'layout', 'cast'):
                status, _, said = served.ask(served.head('POST', path, {'Content-Length': len(body)}), body)
                if path == 'plan' or b'have' not in body:
                    check((path, body[:20], status, said.count(b'\n')), (path, body[:20], 400, 1))
        check(served.post('plan', {'text': smock, 'width': 'broad'})[0], 400)
        for wrong in ({}, {'value': 1, 'remove': True}, {'remove': False}, {'move': 'x'}, {'slide': 1.5}, {'slide': 10 ** 30}, {'rename': 5}):
            check(served.post('change', {'text': smock, 'pointer': '', **wrong})[0], 400)
        big = json.dumps({'text': 'x' * 10_000_000}).encode()
        check(served.ask(served.head('POST', 'plan', {'Content-Length': len(big)}), big)[0], 413)
        # As long as a body may be: a fault of the text, told at its line.
        most = json.dumps({'text': 'x' * 9_999_980}).encode()
        check(served.ask(served.head('POST', 'plan', {'Content-Length': len(most)}), most)[0], 200)
        # Markup and marks that turn the direction of writing come as values; in what the page takes as markup they do not.
        title = '<script>alert(1)</script>\u202e<img src=x onerror=alert(1)>'
        job = {'title': title, 'unit': 'cm', 'fabric': {'weight': '150 g/m2'}, 'lengths': {'cuff': 22, 'sleeve': 46},
               'joins': [{'name': title, 'long': 'sleeve', 'band': 'cuff', 'segments': [{'name': title, 'long': 'sleeve', 'band': 'cuff'}]}]}
        status, answer = served.post('plan', {'text': json.dumps(job), 'width': 'wide', 'have': {}})
        check((status, answer['faults'], answer['job']['title']), (200, [], title))
        assert len(answer['sheet']) > 3
        for fragment in answer['sheet'].values():
            assert '<script' not in fragment['html'] and '<img' not in fragment['html'] and '\u202e' not in fragment['html']
        wrong = {'title': title + '\7', title: 1}
        status, answer = served.post('plan', {'text': json.dumps(wrong)})
        check(status, 200)
        assert len(answer['faults']) > 1 and all(not set(fault['what'] + fault['instead']) & {'\u202e', '\7'} for fault in answer['faults'])


def what_is_on_paper(folder):
    file = folder / 'smock.json'
    file.write_text(smock)
    kinds = {'pdf': 'application/pdf', 'html': 'text/html; charset=utf-8', 'svg': 'image/svg+xml'}
    with serve() as served:
        def had(path, **more):
            body = json.dumps({'text': smock, **more}).encode()
            status, fields, text = served.ask(served.head('POST', path, {'Content-Length': len(body)}), body)
            for name in HEADS:
                assert name in fields
            return status, fields['Content-Type'], text
        for path, form, size in (('strips', 'pdf', 'a4'), ('strips', 'svg', 'letter'), ('sheet', 'html', 'a4'), ('sheet', 'pdf', 'letter'), ('layout', 'pdf', 'a4'), ('layout', 'svg', 'a4')):
            into = folder / f'{path}.{form}'
            subprocess.run([program, 'plan', file, f'--{path}', into, '--paper', size], stdout=subprocess.DEVNULL, check=True)
            check(had(path, form=form, paper=size) == (200, kinds[form], into.read_bytes()), True)
        all_joins = [join['name'] for join in served.post('plan', {'text': smock})[1]['plan']['joins']]
        check(had('strips', form='svg', joins=all_joins) == had('strips', form='svg'), True)
        one = had('strips', form='svg', joins=[all_joins[1]])
        check(had('strips', form='svg', joins=[1]) == one, True)
        text = one[2].decode()
        assert all_joins[1] in text and all_joins[0] not in text
        for wrong in ({'form': 'png'}, {'form': 'html'}, {'paper': 'a5'}, {'joins': ['none']}, {'joins': [99]}, {'joins': 'x'}, {'form': 5}):
            check(had('strips', **wrong)[0], 400)
        status, answer = served.post('layout', {'text': without_pieces})
        check((status, len(answer['faults'])), (200, 1))
        status, answer = served.post('sheet', {'text': '{'})
        check((status, len(answer['faults'])), (200, 1))


def wearers(folder):
    with serve() as served:
        def cast(rows):
            return served.post('cast', {'text': smock, 'list': rows})
        status, answer = cast('wearer;wrist [cm];neck\nAlto 1;17,5;\nBass 1;60;\n')
        check((status, answer['faults'], answer['not_planned']), (200, [], 0))
        plan = served.post('plan', {'text': smock})[1]['plan']
        check([row['wearer'] for row in answer['rows']], ['Alto 1', 'Bass 1'])
        check(answer['rows'][0]['verdict'], 'within limits')
        assert answer['rows'][1]['verdict'] != 'within limits' and answer['rows'][1]['reason'], answer['rows'][1]
        check([list(row['lengths']) for row in answer['rows']], [list(plan['lengths'])] * 2)
        for wrong in ('', 'wearer,nothing\nA,1\n', 'wearer,wrist\nA,x\n', 'PK\3\4'):
            check(cast(wrong)[1]['faults'][0]['pointer'], '/list')
        check(len(cast('wearer,wrist\n' + ''.join(f'W{n},\n' for n in range(1001)))[1]['faults']), 1)


def the_way_in(folder):
    opener = folder / 'xdg-open'
    opener.write_text('#!/bin/sh\nprintf %s "$1" >"$0.part"\nmv "$0.part" "$0.said"\n')
    opener.chmod(0o755)
    said = folder / 'xdg-open.said'
    path = {'PATH': f'{folder}:{os.environ["PATH"]}'}
    bare = {name: value for name, value in os.environ.items() if name not in ('DISPLAY', 'WAYLAND_DISPLAY')} | path
    for words, display, is_opened in ((['--open', 'always'], {}, True), ([], {'DISPLAY': ':9'}, True), (['--open', 'auto'], {'WAYLAND_DISPLAY': 'w'}, True),
                                      (['--open', 'auto'], {}, False), (['--open', 'never'], {'DISPLAY': ':9'}, False)):
        said.unlink(missing_ok=True)
        with Served(program, 'page', *words, env=bare | display) as served:
            for _ in range(30):
                if said.exists() or (not is_opened and _ > 5):
                    break
                time.sleep(0.05)
            check(said.exists(), is_opened)
            if not is_opened:
                continue
            opened = said.read_text()
            prefix = f'http://{served.host}/'
            assert opened.startswith(prefix) and opened.endswith('/') and served.key not in opened
            ticket = opened[len(prefix) - 1:]
            check(served.ask(served.head('POST', ticket))[0], 405)
            check(served.ask(served.head('GET', ticket + 'job'))[0], 404)
            check(served.ask(served.head('GET', ticket, {'Host': 'evil.invalid'}))[0], 403)
            status, fields, _ = served.ask(served.head('GET', ticket))
            check((status, fields['Location']), (303, f'/{served.key}/'))
            for name in HEADS:
                assert name in fields
            status, fields, text = served.ask(served.head('GET', ticket))
            check((status, fields['Location']), (410, None))
            assert b'has been used' in text
    # Without xdg-open it is served all the same.
    (folder / 'none').mkdir()
    with Served(program, 'page', '--open', 'always', env=bare | {'PATH': str(folder / 'none')}) as served:
        check(served.get('alive')[0], 200)


def a_thousand_connections(folder):
    resource.setrlimit(resource.RLIMIT_NOFILE, (4000, max(4000, resource.getrlimit(resource.RLIMIT_NOFILE)[1])))
    files = lambda: resource.setrlimit(resource.RLIMIT_NOFILE, (1024, 4000))
    with serve(preexec_fn=files) as served:
        there = []
        for n in range(1000):
            there.append(served.raw(b'' if n % 2 else b'GET /trickled'))
            if n % 100 == 99:
                took = seconds(lambda: check(served.get('alive')[0], 200))
                assert took < 1, f'beside {n + 1} connections a GET took {took:.3f} s'
        for n in range(200):
            there.append(served.raw())
        # All that there is room for are held, and the first are gone.
        there[0].settimeout(1)
        check(there[0].recv(1), b'')
        there[-1].setblocking(False)
        try:
            there[-1].recv(1)
            raise AssertionError('the last to come is gone')
        except BlockingIOError:
            pass
        assert open(f'/proc/{served.program.pid}/status').read().split('Threads:')[1].split()[0] == str(min(os.cpu_count(), 64) + 1)
        status, answer = served.post('plan', {'text': smock})
        check((status, answer['faults']), (200, []))
        for each in there:
            each.close()


def a_hundred_at_once(folder):
    """A hundred clients, each over a connection of its own, get the very bytes that one gets alone."""
    import http.client
    with serve() as served:
        fields = {'Origin': f'http://{served.host}', 'Content-Type': 'application/json'}

        def answers(bodies):
            connection = http.client.HTTPConnection('127.0.0.1', served.port)
            got = []
            for body in bodies:
                connection.request('POST', f'/{served.key}/plan', body, fields)
                got.append(connection.getresponse().read())
            connection.close()
            return got

        text = served.get('starts')[1][0]['text']
        bodies = [json.dumps({'text': text + ' ' * (n % 7), 'width': 'wide' if n % 2 else 'narrow', 'have': {}, 'held': n % 3 == 0}) for n in range(42)]
        alone = answers(bodies)
        wrong = []

        def ask(client):
            asked = [(client + n) % len(bodies) for n in range(3)]
            try:
                assert answers([bodies[n] for n in asked]) == [alone[n] for n in asked]
            except BaseException as error:
                wrong.append(error)

        clients = [threading.Thread(target=ask, args=(n,)) for n in range(100)]
        for client in clients:
            client.start()
        for client in clients:
            client.join()
        assert not wrong, wrong[0]


def memory_stays(folder):
    """Many plans take no more memory than some do."""
    import http.client
    with serve() as served:
        connection = http.client.HTTPConnection('127.0.0.1', served.port)
        body = json.dumps({'text': served.get('starts')[1][0]['text'], 'width': 'wide', 'have': {}})

        def plans(count):
            for _ in range(count):
                connection.request('POST', f'/{served.key}/plan', body, {'Origin': f'http://{served.host}', 'Content-Type': 'application/json'})
                check(connection.getresponse().read()[:1], b'{')
            return int(open(f'/proc/{served.program.pid}/statm').read().split()[1]) * 4

        few = plans(60)
        many = plans(only_plans or 180)
        if only_plans:
            print(f'{few} kB after 60 plans, {many} kB after {only_plans} more')
        assert many < few + 4000, f'from {few} to {many} kB'
        connection.close()


attempts = (what_keeps_it_from_being_served, how_it_ends, what_a_page_is_made_of, a_job_that_is_saved, a_first_save, saves_at_once,
            answers_to_bodies, what_is_on_paper, wearers, the_way_in, a_thousand_connections, a_hundred_at_once, memory_stays)
for attempt in (memory_stays,) if only_plans else attempts:
    with tempfile.TemporaryDirectory() as made:
        print(f'{attempt.__name__}: {seconds(lambda: attempt(pathlib.Path(made))):.2f} s', flush=True)
